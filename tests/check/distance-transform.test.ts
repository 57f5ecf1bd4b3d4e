import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chessboardDistances, squaredDistances } from '../../src/check/distance-transform.ts'
import { ROUND, SQUARE } from '../../src/check/metric.ts'
import { polylineOf, stretchesOf } from '../../src/check/polyline.ts'
import type { Point } from '../../src/geometry/point.ts'

const grids = fc
  .record({ columns: fc.integer({ min: 1, max: 24 }), rows: fc.integer({ min: 1, max: 24 }) })
  .chain((grid) =>
    fc.record({
      grid: fc.constant(grid),
      marks: fc.array(fc.nat(grid.columns * grid.rows - 1), { maxLength: 8 }),
    }),
  )

/** For each cell the least of a measure to every marked cell. */
function byBruteForce(
  { columns, rows }: { columns: number; rows: number },
  marks: readonly number[],
  measure: (dx: number, dy: number) => number,
) {
  return Array.from({ length: columns * rows }, (_, i) =>
    Math.min(
      ...marks.map((m) =>
        measure((m % columns) - (i % columns), Math.floor(m / columns) - Math.floor(i / columns)),
      ),
    ),
  )
}

describe('distance transforms', () => {
  it('equal the least distance to every marked cell', () => {
    fc.assert(
      fc.property(grids, ({ grid, marks }) => {
        const marked = new Uint8Array(grid.columns * grid.rows)
        for (const m of marks) marked[m] = 1
        const round = byBruteForce(grid, marks, (dx, dy) => dx * dx + dy * dy)
        const square = byBruteForce(grid, marks, (dx, dy) => Math.max(Math.abs(dx), Math.abs(dy)))
        expect([...squaredDistances(marked, grid)]).toEqual(round)
        expect([...chessboardDistances(marked, grid)]).toEqual(square)
      }),
      { seed: 14, numRuns: 200 },
    )
  })
})

describe('distances to a stretch', () => {
  it('are the least over many points of it, round and square', () => {
    const coordinate = fc.oneof(fc.double({ min: -50, max: 50, noNaN: true }), fc.constantFrom(0, 10, -10))
    const point = fc.tuple(coordinate, coordinate)
    fc.assert(
      fc.property(point, point, point, (p, a, b) => {
        const stretches = stretchesOf([polylineOf([a, b])])
        const many = Array.from(
          { length: 2001 },
          (_, i): Point => [
            a[0] + ((b[0] - a[0]) * i) / 2000 - p[0],
            a[1] + ((b[1] - a[1]) * i) / 2000 - p[1],
          ],
        )
        const slack = Math.hypot(b[0] - a[0], b[1] - a[1]) / 2000
        const least = (measure: (q: Point) => number) => Math.min(...many.map(measure))
        const round = least(([x, y]) => Math.hypot(x, y)) - ROUND.distance(p, stretches, 0)
        const square =
          least(([x, y]) => Math.max(Math.abs(x), Math.abs(y))) - SQUARE.distance(p, stretches, 0)
        for (const excess of [round, square]) {
          expect(excess).toBeGreaterThan(-1e-9)
          expect(excess).toBeLessThanOrEqual(slack + 1e-9)
        }
      }),
      { seed: 15, numRuns: 300 },
    )
  })
})
