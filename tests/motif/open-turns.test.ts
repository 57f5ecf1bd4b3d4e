import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, type Point } from '../../src/geometry/point.ts'
import { openTurns } from '../../src/motif/open-turns.ts'

const HAIRPIN: readonly Point[] = [
  [0, 0],
  [1, 0],
  [2, 0],
  [3, 0.1],
  [4, 0.3],
  [3, 0.5],
  [2, 0.6],
  [1, 0.6],
  [0, 0.6],
]

describe('a chain of points whose turns are opened', () => {
  it('has its second neighbours about as far apart as was asked for', () => {
    const open = openTurns(HAIRPIN, 1)
    expect(distance(HAIRPIN[3]!, HAIRPIN[5]!)).toBeLessThan(0.5)
    expect(distance(open[3]!, open[5]!)).toBeGreaterThan(0.9)
    // The middle of the two stays.
    expect((open[3]![1] + open[5]![1]) / 2).toBeCloseTo(0.3, 9)
  })

  it('keeps both ends, and what is wide enough, where it lies', () => {
    const open = openTurns(HAIRPIN, 1)
    expect(open.slice(0, 2)).toEqual(HAIRPIN.slice(0, 2))
    expect(open.slice(-2)).toEqual(HAIRPIN.slice(-2))
    expect(openTurns(HAIRPIN, 0.3)).toEqual(HAIRPIN)
  })

  it('is twice as large for points and a distance twice as large', () => {
    const point = fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 40 }))
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 12 }), (points) => {
        const twice = points.map(([u, v]): Point => [2 * u, 2 * v])
        const open = openTurns(points, 9).map(([u, v]): Point => [2 * u, 2 * v])
        openTurns(twice, 18).forEach((p, i) => {
          expect(distance(p, open[i]!)).toBeLessThan(1e-9)
        })
      }),
      { seed: 1, numRuns: 40 },
    )
  })
})
