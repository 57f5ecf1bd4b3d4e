import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { polylineOf } from '../../src/check/polyline.ts'
import { countRepositions, type Reach, type Reposition } from '../../src/check/repositions.ts'
import { PlanError } from '../../src/error.ts'
import type { Point } from '../../src/geometry/point.ts'

const reach: Reach = { width: 100, height: 60 }
const moves = (...lines: Point[][]) => countRepositions(lines.map(polylineOf), reach)

/** Whether every stretch between two moves fits the reach, looked at afresh. */
function areReachable(
  points: readonly Point[],
  found: readonly Reposition[],
  { width, height }: Reach,
): boolean {
  const stops: (readonly [number, Point])[] = found.map(({ alongMm, at }) => [alongMm, at])
  let along = 0
  points.forEach((p, i) => {
    if (i > 0) along += Math.hypot(p[0] - points[i - 1]![0], p[1] - points[i - 1]![1])
    stops.push([along, p])
  })
  const cuts = [-1, ...found.map(({ alongMm }) => alongMm), along + 1]
  return cuts.slice(1).every((end, k) => {
    const inside = stops.filter(([s]) => s >= cuts[k]! - 1e-9 && s <= end + 1e-9).map(([, p]) => p)
    const [xs, ys] = [inside.map((p) => p[0]), inside.map((p) => p[1])]
    const size = (values: number[]) => (values.length > 0 ? Math.max(...values) - Math.min(...values) : 0)
    return size(xs) <= width + 1e-3 && size(ys) <= height + 1e-3
  })
}

const place = fc.tuple(
  fc.double({ min: 0, max: 400, noNaN: true }),
  fc.double({ min: 0, max: 300, noNaN: true }),
)

describe('repositions', () => {
  it('are none while all lies within reach', () => {
    expect(
      moves([
        [0, 0],
        [100, 60],
        [0, 60],
        [100, 0],
      ]),
    ).toEqual([])
    expect(moves([[5, 5]])).toEqual([])
  })

  it('come exactly where a straight line leaves the reach', () => {
    const found = moves([
      [0, 0],
      [350, 0],
    ])
    expect(found.map(({ alongMm }) => Math.round(alongMm))).toEqual([100, 200, 300])
    expect(found[0]!.at).toEqual([100, 0])
  })

  it('are as many for a line that is written with more points', () => {
    const fine = Array.from({ length: 3501 }, (_, i): Point => [i / 10, 0])
    expect(moves(fine)).toHaveLength(3)
  })

  it('come at a thread start out of reach', () => {
    expect(
      moves(
        [
          [0, 0],
          [50, 0],
        ],
        [
          [200, 0],
          [210, 0],
        ],
      ),
    ).toMatchObject([{ line: 1, alongMm: 0, at: [200, 0] }])
    expect(
      moves(
        [
          [0, 0],
          [50, 0],
        ],
        [
          [60, 0],
          [90, 0],
        ],
      ),
    ).toEqual([])
  })

  it('leave nothing out of reach, and are no more than needed by a wider reach', () => {
    fc.assert(
      fc.property(fc.array(place, { minLength: 2, maxLength: 30 }), (points) => {
        const found = moves(points)
        expect(areReachable(points, found, reach)).toBe(true)
        const wider = countRepositions([polylineOf(points)], { width: 200, height: 120 })
        expect(wider.length).toBeLessThanOrEqual(found.length)
      }),
      { seed: 12, numRuns: 200 },
    )
  })

  it('are shown to be too few by the same look when one is left out', () => {
    const points: Point[] = [
      [0, 0],
      [350, 0],
    ]
    expect(areReachable(points, moves(points).slice(1), reach)).toBe(false)
  })

  it('are refused for a reach that is none', () => {
    expect(() => countRepositions([], { width: 0, height: 60 })).toThrow(PlanError)
    expect(() => countRepositions([], { width: 60, height: Number.NaN })).toThrow(PlanError)
  })
})
