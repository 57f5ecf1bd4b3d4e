import type { Point } from '../geometry/point.ts'

/** A chain of straight stretches as two flat arrays of coordinates, mm. Stitches are one. */
export interface Polyline {
  readonly xs: ArrayLike<number>
  readonly ys: ArrayLike<number>
}

/** Points as a Polyline. */
export function polylineOf(points: readonly Point[]): Polyline {
  const xs = new Float64Array(points.length)
  const ys = new Float64Array(points.length)
  for (let i = 0; i < points.length; i++) {
    xs[i] = points[i]![0]
    ys[i] = points[i]![1]
  }
  return { xs, ys }
}

/** Straight stretches without order, as flat arrays of their end points, mm. */
export interface Stretches {
  readonly count: number
  readonly ax: Float64Array
  readonly ay: Float64Array
  readonly bx: Float64Array
  readonly by: Float64Array
}

/** All stretches of some polylines, one after the other. A polyline of one point gives one of no length. */
export function stretchesOf(polylines: readonly Polyline[]): Stretches {
  const full = polylines.filter(({ xs }) => xs.length > 0)
  const count = full.reduce((sum, { xs }) => sum + Math.max(1, xs.length - 1), 0)
  const [ax, ay, bx, by] = [0, 1, 2, 3].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  let at = 0
  for (const { xs, ys } of full) {
    const last = Math.max(1, xs.length - 1)
    for (let i = 0; i < last; i++, at++) {
      const j = Math.min(i + 1, xs.length - 1)
      ax[at] = xs[i]!
      ay[at] = ys[i]!
      bx[at] = xs[j]!
      by[at] = ys[j]!
    }
  }
  return { count, ax, ay, bx, by }
}

/** Length of stretch `i`, mm. */
export function stretchLength({ ax, ay, bx, by }: Stretches, i: number): number {
  const dx = bx[i]! - ax[i]!
  const dy = by[i]! - ay[i]!
  return Math.sqrt(dx * dx + dy * dy)
}
