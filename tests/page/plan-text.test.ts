import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parse } from 'yaml'
import { MOTIFS } from '../../motifs/index.ts'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import {
  addBand,
  changeUnits,
  duplicateBand,
  editPlanText,
  moveBand,
  readPlanText,
  removeBand,
  setAt,
  writtenValue,
} from '../../src/page/plan-text.ts'
import { planOptions } from '../../src/plan/options.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { LENGTH_UNITS } from '../../src/units.ts'
import { SAMPLES } from '../support/samples.ts'

const CATALOG = catalogOf(LIBRARY)
const sample = fc.constantFrom(...Object.values(SAMPLES))
const lengthKeys = (filler: string) =>
  Object.entries(MOTIFS[filler]?.params ?? {})
    .filter(([, param]) => param.kind === 'length')
    .map(([key]) => key)

const comments = (text: string) => text.split('\n').filter((line) => line.startsWith('#'))

test('a changed value is the only thing that changes, and the comments stay', () => {
  fc.assert(
    fc.property(sample, fc.integer({ min: 10, max: 400 }), (text, width) => {
      const edited = editPlanText(text, (document) => setAt(document, ['centre', 'width'], width / 8))
      const [before, after] = [parse(text), parse(edited)]
      expect(after).toEqual({ ...before, centre: { ...before.centre, width: width / 8 } })
      expect(comments(edited)).toEqual(comments(text))
    }),
    { seed: 1, numRuns: 40 },
  )
})

test('a band that was moved and moved back, or added and removed, leaves the same plan', () => {
  fc.assert(
    fc.property(sample, fc.nat(20), fc.nat(20), (text, a, b) => {
      const count = parse(text).bands.length
      const [from, to] = [a % count, b % count]
      const back = (work: Parameters<typeof editPlanText>[1]) => parse(editPlanText(text, work))
      expect(
        back((document) => {
          moveBand(document, from, to)
          moveBand(document, to, from)
        }),
      ).toEqual(parse(text))
      expect(
        back((document) => {
          addBand(document, from)
          removeBand(document, from + 1)
        }),
      ).toEqual(parse(text))
    }),
    { seed: 2, numRuns: 40 },
  )
})

test('a plan with a band more, new or a copy, can be planned: its name is its own', () => {
  for (const text of Object.values(SAMPLES)) {
    for (const grow of [addBand, duplicateBand]) {
      const twice = editPlanText(text, (document) => {
        grow(document, 0)
        grow(document, 0)
      })
      const { plan } = readPlan(twice, CATALOG)
      expect(plan.bands).toHaveLength(parse(text).bands.length + 2)
      expect(new Set(plan.bands.map(({ name }) => name)).size).toBe(plan.bands.length)
    }
  }
})

test('in another unit every length of the plan is what it was', () => {
  fc.assert(
    fc.property(sample, fc.constantFrom(...LENGTH_UNITS), (text, unit) => {
      const converted = editPlanText(text, (document) =>
        changeUnits(document, unit, { options: planOptions(), ofFiller: lengthKeys }),
      )
      const [before, after] = [text, converted].map((each) => readPlan(each, CATALOG).plan)
      expect(after!.units).toBe(unit)
      expect(numbersOf(after)).toHaveLength(numbersOf(before).length)
      numbersOf(before).forEach((value, i) => {
        expect(numbersOf(after)[i]).toBeCloseTo(value, 2)
      })
    }),
    { seed: 3, numRuns: 30 },
  )
})

function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : []
}

test('a typed number is written as a number, and every other text as it was typed', () => {
  expect(['2.5', ' 3 ', '1 1/2', '2.5 cm', '3/4'].map(writtenValue)).toEqual([
    2.5,
    3,
    '1 1/2',
    '2.5 cm',
    '3/4',
  ])
})

test('what is no plan has no controls, but keeps its text', () => {
  for (const text of ['', 'bands: [', '- 1\n- 2', 'centre: 3\nbands: 4', 'bands: [1]\ncentre: { width: 1 }'])
    expect(readPlanText(text)).toEqual({ text, file: undefined })
})
