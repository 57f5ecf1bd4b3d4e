import { expect, test } from 'vitest'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'

/** Finished widths at the top, in inches, of bands cut this wide. */
function finished(cuts: readonly string[], binding = '1/4 in'): number[] {
  const bands = cuts.map((cut) => `  - { cut: ${cut} }\n`).join('')
  const { plan } = readPlan(
    `centre: { width: 60, height: 72 }\nbinding: ${binding}\nbands:\n${bands}`,
    PLAN_CATALOG,
  )
  return plan.bands.map(({ width }) => width.top / 25.4)
}

test('a strip cut 1 1/2 in finishes at 1 in, in the middle of a quilt and at its edge', () => {
  // Common practice, no source: inside both seam allowances of 1/4 in come off, at the edge one and 1/4 in of binding.
  const widths = finished(['1 1/2', '1 1/2'])
  expect(widths[0]).toBeCloseTo(1, 6)
  expect(widths[1]).toBeCloseTo(1, 6)
})

test('a border cut 4 1/2 in round a centre of 60 x 72 in makes a quilt of 68 x 80 in', () => {
  // allpeoplequilt.com, "Border and corner blocks": cut width = finished + 1/2 in. The figures follow from it.
  const [width] = finished(['4 1/2', '2'])
  expect(60 + 2 * width!).toBeCloseTo(68, 6)
  expect(72 + 2 * width!).toBeCloseTo(80, 6)
})

test('three strips cut 1 1/2 in and sewn together measure 3 1/2 in with their outer allowances', () => {
  // sonflowerquilts.blogspot.com 2012/05: three 1 1/2 in strips make 3 1/2 in.
  const widths = finished(['1 1/2', '1 1/2', '1 1/2', '3'])
  expect(widths[0]! + widths[1]! + widths[2]! + 2 * 0.25).toBeCloseTo(3.5, 6)
})

test('the outermost band loses one seam allowance and what the binding covers', () => {
  const widths = finished(['3', '3'], '1/2 in')
  expect(widths[0]).toBeCloseTo(2.5, 6)
  expect(widths[1]).toBeCloseTo(2.25, 6)
})

test('every side may be cut as wide as it needs', () => {
  const text = `centre: { width: 60, height: 72 }
bands:
  - { cut: { top: 3, right: 2.5, bottom: 3, left: 2 } }
  - { width: 1 }
`
  const { width } = readPlan(text, PLAN_CATALOG).plan.bands[0]!
  expect(width).toEqual({ top: 63.5, right: 50.8, bottom: 63.5, left: 38.1 })
})
