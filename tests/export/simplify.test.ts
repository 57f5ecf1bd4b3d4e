import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cuspedPoints } from '../../src/export/path/cusped-points.ts'
import { simplifyPoints } from '../../src/export/path/simplify.ts'
import { distanceToLine, type Point } from '../../src/geometry/point.ts'
import { StrokeBuilder } from '../../src/geometry/stroke.ts'

const coordinate = fc.integer({ min: -500, max: 500 })
const polyline = fc.array(fc.tuple(coordinate, coordinate), { minLength: 2, maxLength: 120 })

/** The furthest that a left-out point lies from the chord that replaces it; the kept points are found in order. */
function worstChord(all: readonly Point[], kept: readonly Point[]): number {
  let [at, worst] = [0, 0]
  for (let k = 1; k < kept.length; k++) {
    const next = all.findIndex((p, i) => i > at && p[0] === kept[k]![0] && p[1] === kept[k]![1])
    expect(next).toBeGreaterThan(at)
    for (let i = at + 1; i < next; i++) worst = Math.max(worst, distanceToLine(all[i]!, all[at]!, all[next]!))
    at = next
  }
  return worst
}

describe('leaving out points', () => {
  it('never strays further than allowed, keeps ends and kept points, by brute force', () => {
    fc.assert(
      fc.property(
        polyline,
        fc.double({ min: 0.01, max: 50, noNaN: true }),
        fc.nat(100),
        (raw, deviation, pick) => {
          const points = raw.filter((p, i) => i === 0 || p[0] !== raw[i - 1]![0] || p[1] !== raw[i - 1]![1])
          // Each place once, so that a point can be told by where it is
          const unique = points.filter(
            (p, i) => points.findIndex((q) => q[0] === p[0] && q[1] === p[1]) === i,
          )
          fc.pre(unique.length >= 2)
          const keep = pick % unique.length
          const simple = simplifyPoints(unique, deviation, [keep])
          expect(worstChord(unique, simple)).toBeLessThanOrEqual(deviation * (1 + 1e-9))
          expect(simple[0]).toEqual(unique[0])
          expect(simple.at(-1)).toEqual(unique.at(-1))
          expect(simple).toContainEqual(unique[keep])
        },
      ),
      { seed: 1, numRuns: 300 },
    )
  })

  it('is shown by the check to stray when a point too many is left out', () => {
    expect(
      worstChord(
        [
          [0, 0],
          [5, 3],
          [10, 0],
        ],
        [
          [0, 0],
          [10, 0],
        ],
      ),
    ).toBe(3)
  })

  it('is quick and does not overflow on a zigzag that grows and on a long spiral', () => {
    const zigzag = Array.from({ length: 20_000 }, (_, i): Point => [i, (i % 2 === 0 ? 1 : -1) * i])
    expect(simplifyPoints(zigzag, 0.1, [])).toHaveLength(20_000)
    const spiral = Array.from(
      { length: 200_000 },
      (_, i): Point => [(i / 300) * Math.cos(i / 100), (i / 300) * Math.sin(i / 100)],
    )
    const start = performance.now()
    expect(simplifyPoints(spiral, 0.1, []).length).toBeLessThan(60_000)
    expect(performance.now() - start).toBeLessThan(10_000)
  })
})

describe('cusps', () => {
  it('are the joints that turn by more than 15 degrees, and no others', () => {
    const stroke = new StrokeBuilder([0, 0])
      .lineTo([10, 0])
      .lineTo([20, 1])
      .lineTo([20, 10])
      .arcAlong([0, 1], [30, 20])
      .lineTo([10, 20])
      .build()
    const { points, cusps } = cuspedPoints(stroke, 0.1)
    expect(cusps.map((i) => points[i])).toEqual([
      [20, 1],
      [30, 20],
    ])
  })
})
