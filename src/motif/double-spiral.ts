import { type Point, polar } from '../geometry/point.ts'
import { arcFromTangent, cubic, reverseSegment, type Segment } from '../geometry/segment.ts'
import type { Post } from './free-end.ts'

/** A spiral that runs in, hooks at its eye and comes back out between its own lines. Angles in radians, lengths in mm. */
export interface DoubleSpiral {
  readonly centre: Point
  /** The distance from the centre at which the arm inward begins. */
  readonly radius: number
  /** Between neighbouring lines. */
  readonly spacing: number
  /** The direction from the centre in which the arm inward begins, and in which the arm outward ends. */
  readonly inAt: number
  readonly outAt: number
  /** 1 if the arm inward turns from u towards v, -1 if it turns the other way; the arm outward turns against it. */
  readonly turn: 1 | -1
}

/** A drawn double spiral: where it is entered, where it is left and what lies between. */
export interface DrawnSpiral {
  readonly entry: Post
  readonly exit: Post
  readonly segments: readonly Segment[]
}

/** The greatest angle that one cubic of an arm spans. */
const STEP = Math.PI / 4

/**
 * Draws a double spiral: two Archimedean arms r = b theta, half a turn apart, b = spacing / pi, joined by an S of two arcs
 * through the centre.
 *
 * The arm outward ends less than half a turn before or after the place opposite to the other arm's beginning.
 */
export function doubleSpiral(spiral: DoubleSpiral): DrawnSpiral {
  const { centre, radius, inAt, outAt, turn } = spiral
  const b = Math.min(spiral.spacing, radius / 1.25) / Math.PI
  const outer = radius / b
  const eye = Math.min(Math.PI, 0.75 * outer)
  const over = wrap(turn * (inAt + Math.PI - outAt))
  const arm = { centre, b, turn, zero: inAt + turn * outer }
  const inward = armOutward(arm, eye, outer)
  const outward = armOutward({ ...arm, zero: arm.zero + Math.PI }, eye, Math.max(eye + 0.2, outer + over))
  const back = reversed(inward.start.at, inward.segments)
  const hookIn = arcFromTangent(inward.start.at, headingToward(inward.start.heading + Math.PI), centre)
  const hookOut = arcFromTangent(outward.start.at, headingToward(outward.start.heading + Math.PI), centre)
  return {
    entry: { at: inward.end.at, heading: inward.end.heading + Math.PI },
    exit: outward.end,
    segments: [...back, hookIn, reverseSegment(outward.start.at, hookOut), ...outward.segments],
  }
}

const headingToward = (heading: number): Point => [Math.cos(heading), Math.sin(heading)]

/** The same angle in -pi..pi. */
const wrap = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI))

interface Arm {
  readonly centre: Point
  readonly b: number
  readonly turn: 1 | -1
  /** The direction in which the spiral would reach its centre. */
  readonly zero: number
}

/** One arm r = b theta from theta = `inner` to `outer`, as cubics of at most an eighth of a turn. */
export function armOutward(
  arm: Arm,
  inner: number,
  outer: number,
): { readonly start: Post; readonly end: Post; readonly segments: readonly Segment[] } {
  const { centre, b, turn, zero } = arm
  const place = (theta: number): Point => polar(centre, b * theta, zero - turn * theta)
  const rate = (theta: number): Point => {
    const angle = zero - turn * theta
    return [
      b * (Math.cos(angle) + turn * theta * Math.sin(angle)),
      b * (Math.sin(angle) - turn * theta * Math.cos(angle)),
    ]
  }
  const count = Math.ceil((outer - inner) / STEP - 1e-6)
  const step = (outer - inner) / count
  const k = (4 / 3) * Math.tan(step / 4)
  const segments = Array.from({ length: count }, (_, i) => {
    const [a, z] = [inner + i * step, inner + (i + 1) * step]
    const [p, q, dp, dq] = [place(a), place(z), rate(a), rate(z)]
    return cubic([p[0] + k * dp[0], p[1] + k * dp[1]], [q[0] - k * dq[0], q[1] - k * dq[1]], q)
  })
  const post = (theta: number): Post => {
    const [x, y] = rate(theta)
    return { at: place(theta), heading: Math.atan2(y, x) }
  }
  return { start: post(inner), end: post(outer), segments }
}

function reversed(start: Point, segments: readonly Segment[]): Segment[] {
  const back: Segment[] = []
  let from = start
  for (const segment of segments) {
    back.push(reverseSegment(from, segment))
    from = segment.to
  }
  return back.reverse()
}
