import { type Affine, compose } from '../geometry/affine.ts'
import type { Point } from '../geometry/point.ts'
import { reverseStroke, type Stroke, StrokeBuilder, transformStroke } from '../geometry/stroke.ts'
import type { Drawn, Edge, MitreStrip, Strip, Touch } from './contract.ts'

/** The piece of an alternating motif between two neighbouring touches. */
export interface HalfRepeat {
  readonly from: Edge
  readonly to: Edge
  /** Its place in the strip, from 0, and how many there are. */
  readonly index: number
  readonly count: number
  /** Its length along the strip, mm. */
  readonly step: number
  /** The strip's width, mm. */
  readonly width: number
  /** Half the distance between neighbouring touches on the edge that it starts on, and on the other, mm. */
  readonly room: { readonly from: number; readonly to: number }
  /** The greatest radius of a circle that stands on the touch it starts or ends on and keeps before the mitre, mm. */
  readonly clear: { readonly from: number; readonly to: number }
  /** At a mitre's inner corner, the heading square to the mitre, radians from along the strip; otherwise 0. */
  readonly arrival: number
  /** At a mitre's outer corner, how far the mitre leans: mm along the strip for each mm across it; otherwise 0. */
  readonly lean: number
  /** Maps x mm along from its start and y mm away from the edge it starts on to the strip's frame. */
  readonly frame: Affine
  /** The point at x and y in the strip's frame. */
  at(x: number, y: number): Point
}

/** Draws a half repeat: from `half.at(0, 0)`, where the needle is, to `half.at(half.step, half.width)`. */
export type FollowHalf = (line: StrokeBuilder, half: HalfRepeat) => void

/** Draws an alternating motif half repeat by half repeat, evenly spaced, and notes a touch at each edge. */
export function drawHalfRepeats(strip: Strip, follow: FollowHalf): Drawn {
  const step = strip.length / Math.round(2 * strip.repeats)
  return drawHalvesAt(strip, follow, (i) => step * i)
}

/**
 * Draws an alternating motif up to a mitre, half repeat by half repeat. The touches are evenly spaced, but within two
 * widths of the mitre those on the outer edge move on and those on the inner edge move back, the more the nearer they
 * are, until the last one lies in the corner. Each half repeat is drawn in its own shape for the room it has, so that
 * round parts stay round. For half repeats of 0.9 widths or more.
 */
export function drawHalvesToMitre(strip: MitreStrip, follow: FollowHalf): Drawn {
  const { inner, outer } = SHIFTS[strip.to]
  const across = strip.skew * strip.width
  const even = strip.length - inner * across
  const count = Math.round(2 * strip.repeats)
  const reach = Math.min(2 * strip.width, even)
  return drawHalvesAt(strip, follow, (i) => {
    const u = (even * i) / count
    const nearness = Math.max(0, (u - even + reach) / reach)
    const isOuter = (strip.from === 'outer') === (i % 2 === 0)
    return u + nearness * nearness * across * (isOuter ? outer : inner)
  })
}

/**
 * Draws an alternating motif of narrow half repeats up to a mitre like the sticks of a fan: the touches on the inner edge
 * draw together and those on the outer edge apart, the more the nearer they are to the mitre, over the last four widths.
 */
export function drawFannedHalves(strip: MitreStrip, follow: FollowHalf): Drawn {
  const across = strip.skew * strip.width
  const even = strip.length + across / 2
  const count = Math.round(2 * strip.repeats)
  // A quadratic needs 1.5 overhangs to stay in order; a shorter strip leans evenly over all of its length.
  const back = strip.to === 'inner' ? BACK * Math.min(across, strip.width) : 0
  const isRoomy = even > 1.5 * Math.abs(across)
  const reach = isRoomy ? Math.min(FAN * Math.abs(across), even) : even
  return drawHalvesAt(strip, follow, (i) => {
    const u = (even * i) / count
    const nearness = Math.max(0, (u - even + reach) / reach)
    const lean = isRoomy ? nearness * nearness : nearness
    const isOuter = (strip.from === 'outer') === (i % 2 === 0)
    return u + lean * (isOuter ? across / 2 - back : -across / 2)
  })
}

/** Over how many overhangs of the mitre half repeats fan out. */
const FAN = 4

/** How far the last outer touch before an inner corner keeps back, in widths, so that its turn clears its mirror image. */
const BACK = 0.23

/**
 * How far touches shift beside a mitre on which the strip ends at its inner or outer corner, in parts of the mitre's lean.
 * The end itself must reach its corner: inner 0 lies there already, outer - inner is 1.
 */
const SHIFTS: Readonly<Record<Edge, { inner: number; outer: number }>> = {
  inner: { inner: 0, outer: 0.4 },
  outer: { inner: -0.75, outer: 0.25 },
}

/**
 * Draws an alternating motif with touches at given places.
 *
 * @param knot  where touch i of 0 .. 2 repeats lies along the strip, mm
 */
export function drawHalvesAt(
  strip: Strip & { readonly skew?: number },
  follow: FollowHalf,
  knot: (i: number) => number,
): Drawn {
  const count = Math.round(2 * strip.repeats)
  const line = new StrokeBuilder([0, strip.from === 'inner' ? 0 : strip.width])
  const touches: Touch[] = [{ edge: strip.from, after: 0 }]
  const course: Course = { strip, count, usual: strip.length / count, knot }
  for (let index = 0; index < count; index++) {
    const half = new CourseHalf(course, index)
    follow(line, half)
    touches.push({ edge: half.to, after: line.count })
  }
  return { stroke: line.build(), touches }
}

/** A strip with its touches. */
interface Course {
  readonly strip: Strip & { readonly skew?: number }
  readonly count: number
  /** Between neighbouring touches on both edges, if they are evenly spaced, mm. */
  readonly usual: number
  knot(i: number): number
}

/**
 * Half the distance from a touch to its neighbours on the same edge, on one side only where there are none on the other,
 * the usual one where there are none at all.
 */
function roomAt({ count, usual, knot }: Course, i: number): number {
  const [before, after] = [Math.max(i - 2, i % 2), Math.min(i + 2, count - ((count - i) % 2))]
  return after > before ? (knot(after) - knot(before)) / (after - before) : usual
}

/** The greatest radius of a circle on touch `i` that keeps before the mitre; any, where there is none, mm. */
function clearAt({ strip, count, knot }: Course, i: number): number {
  const { skew = 0, length, width, from } = strip
  if (skew === 0 || i === count) return Number.POSITIVE_INFINITY
  const u = knot(i)
  const isOuter = (from === 'outer') === (i % 2 === 0)
  const hypotenuse = Math.hypot(1, skew)
  const clear = isOuter
    ? (length + skew * width - u) / (hypotenuse + skew)
    : (length - u) / (hypotenuse - skew)
  return Math.max(clear, 0.05 * width)
}

/** A half repeat of a course: its room is reckoned when it is asked for. */
class CourseHalf implements HalfRepeat {
  readonly from: Edge
  readonly to: Edge
  readonly index: number
  readonly count: number
  readonly step: number
  readonly width: number
  readonly arrival: number
  readonly lean: number
  readonly at: (x: number, y: number) => Point
  readonly #course: Course
  readonly #start: number

  constructor(course: Course, index: number) {
    const { strip, count, knot } = course
    const { width } = strip
    const start = knot(index)
    const isOutward = (strip.from === 'inner') === (index % 2 === 0)
    const skew = index === count - 1 ? (strip.skew ?? 0) : 0
    this.from = isOutward ? 'inner' : 'outer'
    this.to = isOutward ? 'outer' : 'inner'
    this.index = index
    this.count = count
    this.step = knot(index + 1) - start
    this.width = width
    this.arrival = isOutward ? 0 : Math.atan(skew)
    this.lean = isOutward ? skew : 0
    this.at = isOutward ? (x, y) => [start + x, y] : (x, y) => [start + x, width - y]
    this.#course = course
    this.#start = start
  }

  get frame(): Affine {
    return this.from === 'inner'
      ? { a: 1, b: 0, c: 0, d: 1, e: this.#start, f: 0 }
      : { a: 1, b: 0, c: 0, d: -1, e: this.#start, f: this.width }
  }

  get room(): HalfRepeat['room'] {
    return { from: roomAt(this.#course, this.index), to: roomAt(this.#course, this.index + 1) }
  }

  get clear(): HalfRepeat['clear'] {
    return { from: clearAt(this.#course, this.index), to: clearAt(this.#course, this.index + 1) }
  }
}

/**
 * A half repeat's stroke in the strip's frame, for motifs whose halves are mirror images of each other.
 *
 * @param rise  the stroke from [0, 0] to [step, width] of a half that ends on `top`
 * @param top  a half that starts there gets the mirror image, travelled backwards
 */
export function mirroredHalf(half: HalfRepeat, rise: Stroke, top: Edge): Stroke {
  if (half.to === top) return transformStroke(rise, half.frame)
  const halfTurn: Affine = { a: -1, b: 0, c: 0, d: -1, e: half.step, f: half.width }
  return reverseStroke(transformStroke(rise, compose(halfTurn, half.frame)))
}
