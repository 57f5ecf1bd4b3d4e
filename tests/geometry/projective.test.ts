import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import {
  applyProjective,
  composeProjective,
  type Four,
  invertProjective,
  squareToQuadrilateral,
} from '../../src/geometry/projective.ts'

const SQUARE: Four = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
]
const near = (a: number, b: number) => fc.double({ min: a - b, max: a + b, noNaN: true })

/** A rectangle seen askew: convex, because no corner strays by more than a fifth. */
const quadrilateral: fc.Arbitrary<Four> = fc
  .tuple(...SQUARE.map(([x, y]) => fc.tuple(near(x * 300, 60), near(y * 200, 40))))
  .map((corners) => corners as unknown as Four)
const place = fc.tuple(near(0.5, 0.5), near(0.5, 0.5))
const close = (a: Point, b: Point) => {
  expect(a[0]).toBeCloseTo(b[0], 5)
  expect(a[1]).toBeCloseTo(b[1], 5)
}

test('the corners of the square go to those of the quadrilateral', () => {
  fc.assert(
    fc.property(quadrilateral, (corners) => {
      const map = squareToQuadrilateral(corners)!
      SQUARE.forEach((corner, i) => {
        close(applyProjective(map, corner), corners[i]!)
      })
    }),
    { seed: 1, numRuns: 100 },
  )
})

test('the diagonals still cross in one place: a projective map keeps straight lines straight', () => {
  fc.assert(
    fc.property(quadrilateral, (corners) => {
      const [x, y] = applyProjective(squareToQuadrilateral(corners)!, [0.5, 0.5])
      for (const [a, b] of [
        [corners[0], corners[2]],
        [corners[1], corners[3]],
      ] as const) {
        const area = (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])
        expect(Math.abs(area) / Math.hypot(b[0] - a[0], b[1] - a[1])).toBeLessThan(1e-6)
      }
    }),
    { seed: 2, numRuns: 100 },
  )
})

test('a map and its inverse, one after the other, leave every place where it was', () => {
  fc.assert(
    fc.property(quadrilateral, place, (corners, p) => {
      const map = squareToQuadrilateral(corners)!
      close(applyProjective(composeProjective(invertProjective(map), map), p), p)
    }),
    { seed: 3, numRuns: 100 },
  )
})

test('corners on one line have no map', () => {
  expect(
    squareToQuadrilateral([
      [0, 0],
      [1, 1],
      [2, 2],
      [3, 3],
    ]),
  ).toBeUndefined()
})
