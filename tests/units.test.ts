import { expect, test } from 'vitest'
import { inches, LENGTH_UNITS, MM_PER, toInches, toUnit } from '../src/units.ts'

test('an inch is 25.4 mm and a yard 0.9144 m', () => {
  // International yard and pound agreement, 1959: 1 yd = 0.9144 m exactly.
  expect(MM_PER.in).toBe(25.4)
  expect(MM_PER.yd).toBe(914.4)
  expect(MM_PER.yd).toBeCloseTo(36 * MM_PER.in, 9)
})

test('a point is 1/72 in and a CSS pixel 1/96 in', () => {
  // CSS Values and Units Module Level 4, absolute lengths: 1in = 72pt = 96px.
  expect(72 * MM_PER.pt).toBeCloseTo(25.4, 12)
  expect(96 * MM_PER.px).toBeCloseTo(25.4, 12)
})

test('going to a unit and back gives the same length', () => {
  for (const unit of LENGTH_UNITS) expect(toUnit(317.5, unit) * MM_PER[unit]).toBeCloseTo(317.5, 9)
  expect(toInches(inches(12.5))).toBeCloseTo(12.5, 12)
})
