import { lerp, type Point, subtract, unit } from '../geometry/point.ts'
import { cubic, type Segment } from '../geometry/segment.ts'
import type { Stroke } from '../geometry/stroke.ts'
import { type Heading, joint } from './free-end.ts'

/** The point of a uniform cubic B-spline over its middle control point. */
const knot = (a: Point, b: Point, c: Point): Point => [
  (a[0] + 4 * b[0] + c[0]) / 6,
  (a[1] + 4 * b[1] + c[1]) / 6,
]

/**
 * The uniform cubic B-spline of a chain of control points, curvature continuous, from near the second to near the last
 * but one, led in and out smoothly.
 *
 * @source de Boor: the Bezier points of a span are the thirds of its control polygon
 */
export function smoothPath(points: readonly Point[], first: Heading, last: Heading): Stroke {
  const segments: Segment[] = []
  const at = (i: number): Point => points[i]!
  const start = knot(at(0), at(1), at(2))
  segments.push(joint(first, { at: start, along: unit(subtract(at(2), at(0))) }))
  for (let i = 1; i + 2 < points.length; i++)
    segments.push(
      cubic(lerp(at(i), at(i + 1), 1 / 3), lerp(at(i), at(i + 1), 2 / 3), knot(at(i), at(i + 1), at(i + 2))),
    )
  const n = points.length
  segments.push(joint({ at: segments.at(-1)!.to, along: unit(subtract(at(n - 1), at(n - 3))) }, last))
  return { start: first.at, segments }
}
