import type { Point } from './point.ts'
import { pointAt, type Segment } from './segment.ts'
import { eachSegment, type Stroke } from './stroke.ts'

/** Turns closer than this to a segment's ends are its ends. */
const END = 1e-7

/**
 * Where a segment turns back along an axis (0 for x, 1 for y): parameters between 0 and 1, in order.
 *
 * @source the zeros of a cubic Bezier's derivative, a quadratic; the stable form of its formula (q = -(b + sign(b) sqrt(D)) / 2)
 */
export function turnsOf(from: Point, segment: Segment, axis: 0 | 1): number[] {
  if (segment.kind !== 'cubic') return []
  const [p, q, r, s] = [from[axis], segment.c1[axis], segment.c2[axis], segment.to[axis]]
  const [a, b, c] = [s - p + 3 * (q - r), 2 * (p - 2 * q + r), q - p]
  return zeros(a, b, c)
    .filter((t) => t > END && t < 1 - END)
    .sort((t0, t1) => t0 - t1)
}

/** The zeros of a t^2 + b t + c. */
function zeros(a: number, b: number, c: number): number[] {
  const size = Math.max(Math.abs(a), Math.abs(b), Math.abs(c))
  if (size === 0) return []
  if (Math.abs(a) < 1e-12 * size) return Math.abs(b) < 1e-12 * size ? [] : [-c / b]
  const discriminant = b * b - 4 * a * c
  if (discriminant < 0) return []
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2
  return q === 0 ? [0] : [q / a, c / q]
}

/** The least and the greatest coordinate of a segment along an axis. */
export function rangeOf(from: Point, segment: Segment, axis: 0 | 1): readonly [number, number] {
  const values = [
    from[axis],
    segment.to[axis],
    ...turnsOf(from, segment, axis).map((t) => pointAt(from, segment, t)[axis]),
  ]
  return [Math.min(...values), Math.max(...values)]
}

/** The least and the greatest coordinate of a stroke along an axis. */
export function strokeRange(stroke: Stroke, axis: 0 | 1): readonly [number, number] {
  let [least, most] = [stroke.start[axis], stroke.start[axis]]
  eachSegment(stroke, (from, segment) => {
    // A cubic keeps within its control points.
    if (segment.kind === 'cubic') {
      const { c1, c2, to } = segment
      const [p, q, r] = [c1[axis], c2[axis], to[axis]]
      if (Math.min(p, q, r) >= least && Math.max(p, q, r) <= most) return
    }
    const [low, high] = rangeOf(from, segment, axis)
    least = Math.min(least, low)
    most = Math.max(most, high)
  })
  return [least, most]
}
