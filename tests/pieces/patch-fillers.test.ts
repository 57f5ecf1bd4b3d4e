import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, type Point, polar } from '../../src/geometry/point.ts'
import { endOf, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import { fillPatch } from '../../src/pieces/patch-fillers/contract.ts'
import { PATCH_FILLERS } from '../../src/pieces/patch-fillers/index.ts'
import { cornerAngles, incircle } from '../../src/pieces/patch-fillers/patch-shape.ts'
import { retraceLength } from '../support/retrace.ts'
import { assertValidStroke } from '../support/stroke-laws.ts'
import { depthInside } from './piece-laws.ts'

/** Patches as units have them: regular and stretched, three to eight corners, none very sharp or very short. */
const patch: fc.Arbitrary<Point[]> = fc
  .record({
    corners: fc.integer({ min: 3, max: 8 }),
    size: fc.double({ min: 15, max: 150, noNaN: true }),
    turn: fc.double({ min: 0, max: 6, noNaN: true }),
    stretch: fc.double({ min: 0.35, max: 1, noNaN: true }),
    wobble: fc.array(fc.double({ min: -0.18, max: 0.18, noNaN: true }), { minLength: 8, maxLength: 8 }),
  })
  .map(({ corners, size, turn, stretch, wobble }) =>
    Array.from({ length: corners }, (_, i): Point => {
      const [x, y] = polar([0, 0], size, turn + (2 * Math.PI * (i + wobble[i]!)) / corners)
      return [x + 300, y * stretch + 300]
    }),
  )

const isCorner = (p: Point, corners: readonly Point[]) => corners.some((c) => distance(c, p) < 1e-6)

describe.each(Object.entries(PATCH_FILLERS))('the patch filler %s', (name, filler) => {
  const draw = (corners: readonly Point[]) => fillPatch({ name, filler, values: {} }, corners)

  it('begins and ends at corners and keeps inside the patch', () => {
    fc.assert(
      fc.property(patch, (corners) => {
        for (const stroke of draw(corners)) {
          assertValidStroke(stroke)
          expect(isCorner(stroke.start, corners)).toBe(true)
          expect(isCorner(endOf(stroke), corners)).toBe(true)
          for (const p of flattenStroke(stroke, 0.02)) expect(depthInside(p, corners)).toBeGreaterThan(-0.05)
        }
      }),
      { seed: 91, numRuns: 60 },
    )
  })

  it('touches a seam nowhere but at its corners', () => {
    fc.assert(
      fc.property(patch, (corners) => {
        for (const stroke of draw(corners)) {
          for (const p of flattenStroke(stroke, 0.02)) {
            const near = Math.min(...corners.map((c) => distance(c, p)))
            if (near > 3) expect(depthInside(p, corners)).toBeGreaterThan(0.02)
          }
        }
      }),
      { seed: 92, numRuns: 60 },
    )
  })

  it('does not stitch over itself', () => {
    fc.assert(
      fc.property(patch, (corners) => {
        for (const stroke of draw(corners)) expect(retraceLength(stroke)).toBe(0)
      }),
      { seed: 93, numRuns: 12 },
    )
  })

  it('scales with the patch and its lengths', () => {
    fc.assert(
      fc.property(patch, (corners) => {
        const length = (by: number) => {
          const spacing = 6 * by
          const values = 'spacing' in filler.params ? { spacing } : {}
          const scaled = corners.map(([x, y]): Point => [x * by, y * by])
          return fillPatch({ name, filler, values }, scaled).reduce((sum, s) => sum + strokeLength(s), 0)
        }
        const [one, three] = [length(1), length(3)]
        expect(Math.abs(three - 3 * one)).toBeLessThan(1e-3 * Math.max(1, three))
      }),
      { seed: 94, numRuns: 40 },
    )
  })
})

describe('the largest circle in a patch', () => {
  it('has radius area over half the perimeter in a triangle', () => {
    // r = A / s: Heron; every triangle has an incircle.
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: 20, max: 90, noNaN: true }),
        (a, b) => {
          const corners: Point[] = [
            [0, 0],
            [a, 0],
            [0, b],
          ]
          expect(incircle(corners).radius).toBeCloseTo((a * b) / (a + b + Math.hypot(a, b)), 5)
        },
      ),
      { seed: 95, numRuns: 50 },
    )
  })

  it('lies in the middle of a long rectangle', () => {
    const { middle, radius } = incircle([
      [0, 0],
      [90, 0],
      [90, 30],
      [0, 30],
    ])
    expect(radius).toBeCloseTo(15, 5)
    expect(middle[0]).toBeCloseTo(45, 4)
  })
})

it('the angles of a patch add up to those of its kind', () => {
  fc.assert(
    fc.property(patch, (corners) => {
      const sum = cornerAngles(corners).reduce((total, angle) => total + angle, 0)
      // (n - 2) pi: Euclid I.32.
      expect(sum).toBeCloseTo((corners.length - 2) * Math.PI, 6)
    }),
    { seed: 96, numRuns: 50 },
  )
})
