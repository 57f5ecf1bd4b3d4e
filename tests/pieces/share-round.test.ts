import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import { shareRound } from '../../src/pieces/share-round.ts'

/** Corners round a square ring of cloth, on its inner seam and on its outer one by turns. */
function corners(count: number, middle: Point): Point[] {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.2)) / count
    const [x, y] = [Math.cos(angle), Math.sin(angle)]
    const far = (i % 2 === 0 ? 300 : 340) / Math.max(Math.abs(x), Math.abs(y))
    return [middle[0] + x * far, middle[1] + y * far]
  })
}

/** From each corner to the next, so often. */
const chain = (count: number, middle: Point, times: number): Stroke[] => {
  const all = corners(count, middle)
  const once = all.map((p, i) => strokeThrough([p, all[(i + 1) % count]!]))
  return Array.from({ length: times }, () => once).flat()
}

const places = fc.record({
  count: fc.integer({ min: 8, max: 200 }),
  middle: fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 })),
})

describe('strokes in patches', () => {
  it('go round if each leads to the next, also if a few are missing', () => {
    fc.assert(
      fc.property(places, fc.integer({ min: 0, max: 2 }), ({ count, middle }, missing) => {
        // A lap less the missing ones, as far as the cuts tell.
        const share = shareRound(chain(count, middle, 1).slice(missing), middle)
        expect(Math.abs(share - (1 - missing / count))).toBeLessThan(0.1)
      }),
      { seed: 1, numRuns: 100 },
    )
  })

  it('do not if each leads there and back, or ends where it began', () => {
    fc.assert(
      fc.property(places, ({ count, middle }) => {
        expect(shareRound(chain(count, middle, 2), middle)).toBe(0)
        expect(
          shareRound(
            corners(count, middle).map((p) => strokeThrough([p, [p[0] + 9, p[1]], p])),
            middle,
          ),
        ).toBe(0)
      }),
      { seed: 2, numRuns: 100 },
    )
  })

  it('go round as an odd number of laps does', () => {
    expect([1, 2, 3, 4].map((times) => shareRound(chain(40, [7, 9], times), [7, 9]))).toEqual([1, 0, 1, 0])
  })
})
