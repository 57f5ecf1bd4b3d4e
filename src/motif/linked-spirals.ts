import { add, distance, dot, lerp, type Point, scale, subtract, unit } from '../geometry/point.ts'
import type { Segment } from '../geometry/segment.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Circle } from './circle-columns.ts'
import {
  type DoubleSpiral,
  drawDoubleSpiral,
  endDirection,
  outwardStep,
  startDirection,
} from './double-spiral.ts'
import { type Heading, joint } from './free-end.ts'

/** How one spiral passes into the next: through an S at their touch, or along the outside of both. */
export type Link = 'through' | 'along'

/** How a chain of spirals is entered and left. */
export interface Ends {
  readonly enter: number
  readonly leave: number
  /** The sense of the first spiral's way in: 1 from u towards v. */
  readonly turn: 1 | -1
}

/** In spacings: how far spirals reach past their circles and over each other, and stay back where the line runs along. */
const OVER = 0.45
const GRIP = 0.3
const ALONG = 0.25
/** How far the line along two circles leans into the hollow between them, in spacings. */
const LEAN = 0.45
/** The weight of a spiral's own size against that of each of its two joints. */
const KEEP = 1.6
/** Rounds of relaxation: each leaves a third of what is left to do at most, all together less than a billionth. */
const ROUNDS = 20

/** The angle that the joint between two spirals takes from each, radians. */
export const trimOf = (circle: Circle, spacing: number): number =>
  (0.9 * (circle.spacing ?? spacing)) / circle.radius

const bearing = (from: Point, to: Point): number => {
  const [x, y] = subtract(to, from)
  return Math.atan2(y, x)
}

/** The angle at which the line leaves circle `a` for circle `b`, and the one at which it comes in there. */
function linkAngles(a: Circle, b: Circle, link: Link, turn: 1 | -1): readonly [leave: number, enter: number] {
  const towards = bearing(a.centre, b.centre)
  if (link === 'through') return [towards, towards + Math.PI]
  const angle = towards + turn * Math.acos((a.radius - b.radius) / distance(a.centre, b.centre))
  return [angle, angle]
}

/**
 * Double spirals on a chain of circles, each entered from the one before and left towards the next. Where the line
 * passes along the outside, the sense of turning changes.
 *
 * @param links  one less than there are circles
 * @param drawing.spacing  the distance between lines, where a circle has none of its own, mm
 */
export function linkedSpirals(
  circles: readonly Circle[],
  links: readonly Link[],
  drawing: Ends & { readonly spacing: number },
): DoubleSpiral[] {
  let { turn, enter } = drawing
  const all = circles.map((circle, i): DoubleSpiral => {
    const [next, link] = [circles[i + 1], links[i]]
    const [leave, nextEnter] = next && link ? linkAngles(circle, next, link, turn) : [drawing.leave, 0]
    const spacing = circle.spacing ?? drawing.spacing
    const trim = trimOf(circle, spacing)
    const [trimEnter, trimLeave] = [links[i - 1] === 'along' ? 0 : trim, link === 'along' ? 0 : trim]
    const radius = circle.radius + OVER * spacing
    const spiral = { centre: circle.centre, radius, spacing, enter, leave, turn, trimEnter, trimLeave }
    enter = nextEnter
    if (link === 'along') turn = turn === 1 ? -1 : 1
    return spiral
  })
  return settle(all, circles, links)
}

/**
 * Swells and shrinks the spirals a little so that each one's way out meets the next one's way in: least squares by
 * relaxation over the joints and over the wish that every spiral keeps its size.
 */
function settle(
  all: readonly DoubleSpiral[],
  circles: readonly Circle[],
  links: readonly Link[],
): DoubleSpiral[] {
  const half = all.map((s) => outwardStep(s) / 2)
  const mean = all.map((s) => s.radius)
  /** How far apart the mean radii of spiral i and the next reach together; undefined where the line runs along both. */
  const reach = circles.slice(1).map((b, i) => {
    const a = circles[i]!
    if (links[i] === 'along') return undefined
    return Math.min(distance(a.centre, b.centre), a.radius + b.radius) + GRIP * all[i]!.spacing
  })
  /** What the mean radius of spiral `i` would be to suit its joint with `j`, but for that one's own; `out` is 1 on the way out. */
  const wish = (i: number, j: number, out: 1 | -1): number => {
    const together = reach[Math.min(i, j)]
    if (together === undefined) return circles[i]!.radius - out * half[i]! - ALONG * all[i]!.spacing
    return together + out * (half[j]! - half[i]!)
  }
  const wishes = all.map(({ radius }, i) => KEEP * radius + wish(i, i + 1, 1) + wish(i, i - 1, -1))
  for (let round = 0; round < ROUNDS; round++)
    for (let i = 0; i < all.length; i++) {
      const before = reach[i - 1] === undefined ? 0 : mean[i - 1]!
      const after = reach[i] === undefined ? 0 : mean[i + 1]!
      mean[i] = (wishes[i]! - before - after) / (KEEP + 2)
    }
  return all.map((s, i) => ({ ...s, radius: mean[i]! }))
}

const startHeading = (s: Stroke): Heading => ({ at: s.start, along: startDirection(s) })
const endHeading = (s: Stroke): Heading => ({ at: s.segments.at(-1)!.to, along: endDirection(s) })

/** Where the line along two circles leans into the hollow between them: half way, a little towards `inside`. */
function hollow(from: Heading, to: Heading, inside: Point, spacing: number): Heading {
  const along = unit(subtract(to.at, from.at))
  const left: Point = [-along[1], along[0]]
  const lean = (dot(left, subtract(inside, from.at)) > 0 ? LEAN : -LEAN) * spacing
  return { at: add(lerp(from.at, to.at, 0.5), scale(left, lean)), along }
}

/** Spirals in order with their links. */
export interface Chain {
  readonly spirals: readonly DoubleSpiral[]
  readonly links: readonly Link[]
}

/**
 * One smooth stroke through a chain of spirals.
 *
 * @param lead  where the line comes from, in order
 * @param tail  where it goes then, in order; a first heading at the place it comes from says only how that is left
 */
export function chainStroke(
  chain: Chain,
  lead: readonly [Heading, ...Heading[]],
  tail: (from: Heading) => readonly Heading[],
): Stroke {
  const segments: Segment[] = []
  let at = lead[0]
  const join = (to: Heading) => {
    segments.push(joint(at, to))
    at = to
  }
  lead.slice(1).forEach(join)
  chain.spirals.forEach((spiral, i) => {
    const stroke = drawDoubleSpiral(spiral)
    const to = startHeading(stroke)
    if (chain.links[i - 1] === 'along') {
      join(hollow(at, to, lerp(chain.spirals[i - 1]!.centre, spiral.centre, 0.5), spiral.spacing))
    }
    join(to)
    segments.push(...stroke.segments)
    at = endHeading(stroke)
  })
  const [first, ...rest] = tail(at)
  if (first && distance(first.at, at.at) === 0) at = first
  else if (first) join(first)
  rest.forEach(join)
  return { start: lead[0].at, segments }
}
