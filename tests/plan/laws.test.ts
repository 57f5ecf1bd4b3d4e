import fc from 'fast-check'
import { expect, test } from 'vitest'
import { PlanError } from '../../src/error.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { starterPlan } from '../../src/plan/starter.ts'
import { writePlan } from '../../src/plan/write-plan.ts'
import { LENGTH_UNITS } from '../../src/units.ts'
import { arbitraryPlan, planText } from '../support/arbitrary-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'

const read = (text: string) => readPlan(text, PLAN_CATALOG).plan

test('the units in which a quilt is written do not matter', () => {
  fc.assert(
    fc.property(arbitraryPlan, (data) => {
      const [inInches, inCm, inMm] = LENGTH_UNITS.map((unit) => ({
        ...read(planText(data, unit)),
        units: 'any',
      }))
      expect(inCm).toStrictEqual(inInches)
      expect(inMm).toStrictEqual(inInches)
    }),
    { seed: 1, numRuns: 100 },
  )
})

/** The same data with the keys of every group in the opposite order. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, item]) => [key, turned(item)]),
  )
}

test('the order of keys does not matter', () => {
  fc.assert(
    fc.property(arbitraryPlan, (data) => {
      const text = planText(data, 'in')
      expect(read(JSON.stringify(turned(JSON.parse(text))))).toStrictEqual(read(text))
    }),
    { seed: 2, numRuns: 100 },
  )
})

test('a plan that is written and read is the same plan', () => {
  fc.assert(
    fc.property(arbitraryPlan, fc.constantFrom(...LENGTH_UNITS), (data, unit) => {
      const plan = read(planText(data, unit))
      const text = writePlan(plan, PLAN_CATALOG)
      expect(read(text)).toStrictEqual(plan)
      expect(writePlan(read(text), PLAN_CATALOG)).toBe(text)
    }),
    { seed: 3, numRuns: 150 },
  )
})

/** Whether a plan is read or refused with every problem placed; anything else is a failure. */
function isAnswered(text: string): boolean {
  try {
    readPlan(text, PLAN_CATALOG)
    return true
  } catch (error) {
    if (!(error instanceof PlanError)) throw error
    expect(error.problems.length).toBeGreaterThan(0)
    const lines = text.split('\n').length
    for (const { code, message, position } of error.problems) {
      expect(code).toMatch(/^plan\/[a-z-]+$/)
      expect(message).not.toBe('')
      expect(position?.line).toBeGreaterThanOrEqual(1)
      expect(position?.line).toBeLessThanOrEqual(lines + 1)
      expect(position?.column).toBeGreaterThanOrEqual(1)
    }
    return false
  }
}

test('any text at all is answered with problems and nothing else', () => {
  const noise = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 200 }),
    fc.string({ unit: fc.constantFrom(...'abands:{}[],-?!&*#|>\'"%@` \n\t0.'), maxLength: 300 }),
    fc.json(),
  )
  fc.assert(
    fc.property(noise, (text) => {
      isAnswered(text)
    }),
    { seed: 4, numRuns: 300 },
  )
})

/** Values that have no business anywhere in a plan, or seldom. */
const stranger = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    -1,
    0,
    0.5,
    1e308,
    -1e308,
    5e-324,
    '',
    'NaN',
    '1/0',
    'none',
    'auto',
    [],
    {},
    [[]],
    '__proto__',
  ),
  fc.jsonValue({ maxDepth: 2 }),
)

/** The paths to all values of some data. */
const pathsOf = (value: unknown, path: readonly string[] = []): string[][] =>
  typeof value === 'object' && value !== null
    ? Object.entries(value).flatMap(([key, item]) => [[...path, key], ...pathsOf(item, [...path, key])])
    : []

/** Puts a value at a path, or takes away what is there. */
function put(data: unknown, path: readonly string[], value: unknown): void {
  const group = path.slice(0, -1).reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], data)
  ;(group as Record<string, unknown>)[path.at(-1)!] = value
}

test('a sound plan with one value exchanged is read, or refused in words', () => {
  let refused = 0
  fc.assert(
    fc.property(arbitraryPlan, stranger, fc.nat(), (plan, value, at) => {
      const data: unknown = JSON.parse(planText(plan, 'in'))
      const paths = pathsOf(data)
      put(data, paths[at % paths.length]!, value)
      if (!isAnswered(JSON.stringify(data))) refused++
    }),
    { seed: 5, numRuns: 300 },
  )
  expect(refused).toBeGreaterThan(150)
})

test('the starter with a piece cut out or doubled is read, or refused in words', () => {
  const text = starterPlan()
  const place = fc.integer({ min: 0, max: text.length })
  fc.assert(
    fc.property(place, place, fc.boolean(), (a, b, isDoubled) => {
      const [from, to] = [Math.min(a, b), Math.max(a, b)]
      isAnswered(isDoubled ? text.slice(0, to) + text.slice(from) : text.slice(0, from) + text.slice(to))
    }),
    { seed: 6, numRuns: 300 },
  )
})

test('every sound plan is read without a problem', () => {
  fc.assert(
    fc.property(arbitraryPlan, (data) => isAnswered(planText(data, 'cm'))),
    { seed: 7, numRuns: 100 },
  )
})
