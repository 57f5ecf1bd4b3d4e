import { expect, test } from 'vitest'
import type { Catalog } from '../../src/plan/catalog.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { starterPlan } from '../../src/plan/starter.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'

/** The names that the starter uses, with the widths that trade.md's fillers suit. */
const { ripple, waves } = PLAN_CATALOG.motifs
const catalog: Catalog = { motifs: { bracket: ripple!, scallop: waves!, 's-echo': waves! } }

test('the plan to start from is read without a problem or a warning', () => {
  const { plan, warnings } = readPlan(starterPlan(), catalog)
  expect(warnings).toEqual([])
  expect(plan.title).toBe('Lighthouse raffle quilt')
  expect(plan.bands.map((band) => band.name)).toEqual(['sand', 'swell', 'stripe', 'shore'])
})

test('what its remarks say is so', () => {
  const { plan } = readPlan(starterPlan(), catalog)
  expect(plan.bands[1]?.width.top).toBeCloseTo(2.5 * 25.4, 6)
  const measured = starterPlan().replace('# measured:\n#   -', 'measured:\n  -')
  expect(readPlan(measured, catalog).plan.measured[0]).toMatchObject({
    band: -1,
    across: [609.6, 612.775, 609.6],
  })
  const drawn = starterPlan()
    .replace('# motifs:\n#   harbour', 'motifs:\n  harbour')
    .replace('scallop', 'harbour-wave')
  const readFile = () => '<svg><path d="M0 9C9 9 9 0 18 0C27 0 27 9 36 9"/></svg>'
  expect(readPlan(drawn, { ...catalog, readFile }).plan.bands[3]?.filler?.name).toBe('harbour-wave')
  const spaced = starterPlan().replace('filler: s-echo', 'filler: { s-echo: { spacing: 0.5 } }')
  expect(readPlan(spaced, catalog).plan.bands[1]?.filler?.given).toEqual(['spacing'])
  const sized = starterPlan().replace('length: 2.5 mm', 'perInch: 10').replace('75 m', '{ class: L }')
  expect(readPlan(sized, catalog).plan.thread.bobbinClass).toBe('L')
})

test('every remark stands beside a key, and no line is wider than 120 characters', () => {
  const lines = starterPlan().split('\n')
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(120)
  const keys = lines.filter((line) => /^[a-z]/.test(line)).map((line) => line.slice(0, line.indexOf(':')))
  expect(keys).toEqual([
    'title',
    'units',
    'centre',
    'bands',
    'binding',
    'machine',
    'stitch',
    'thread',
    'batting',
    'spacing',
    'density',
    'route',
  ])
})
