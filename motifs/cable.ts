import { distance, type Point, scale, unit } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import {
  type Drawn,
  defineMotif,
  type Edge,
  type MitreStrip,
  type Strip,
  type Touch,
} from '../src/motif/contract.ts'
import { inches } from '../src/units.ts'

/** Touches to half a period of a strand: one of each strand. */
const STRANDS = 3

/** A half period is the cubic [0, 0], [LEVEL, 0], [1 - LEVEL, 1], [1, 1]: to 1e-5 as long as the half wave of a sine. */
const LEVEL = 0.3648
/**
 * Like the sine it passes a third of its length at a quarter of its height, there at the parameter T, with derivative SLOPE.
 *
 * @source height 3 t^2 - 2 t^3 = 1/4 at t = 1/2 - sin(asin(1/2) / 3)
 */
const T = 0.5 - Math.sin(Math.PI / 18)
const SLOPE: Point = [3 * (LEVEL * (1 - 2 * T) ** 2 + 2 * T * (1 - T) * (1 - LEVEL)), 6 * T * (1 - T)]

/** The length of a repeat, neither steeper nor flatter than a cable can be, mm. */
const repeatFor = (width: number, { repeat }: { readonly repeat: number }): number =>
  Math.min(Math.max(repeat, 1.5 * width), 6 * width)

export default defineMotif({
  title: 'Cable',
  source: 'three sines a third of a period apart; common practice',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.8 }, min: inches(2), max: inches(24) },
  },
  closeness: 'repeat',
  suits: { min: inches(1.5), max: inches(6) },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: repeatFor,
  draw: (strip, values) => drawStrands(straightCourse(strip, repeatFor(strip.width, values))),
  drawToMitre: (strip, values) => drawStrands(mitreCourse(strip, repeatFor(strip.width, values))),
})

/** Where the strands touch the edges, one after the other and now the one, now the other, and how they end. */
interface Course {
  readonly strip: Strip
  /** The number of the last touch; the first is 0. */
  readonly count: number
  /** Place of a touch along the strip, mm; the numbers run on beyond both ends. */
  at(i: number): number
  /** The direction in which a strand comes to the last touch, a unit vector. */
  readonly ending: Point
  /** Where two strands cross at the far end. */
  readonly crossing: Point
  /** The handle, before the crossing, of a strand that comes from touch `i`, 1 or 2 before the end, `apart` mm away. */
  arrival(i: number, apart: number): Point
}

/**
 * How many touches come after the first, as near to `wanted` as may be: even, if the line comes back to the edge it begins
 * on, odd if not; and no multiple of three, since then it would end on the strand that it begins with.
 */
function touchesFor({ from, to }: Strip, wanted: number): number {
  const odd = from === to ? 0 : 1
  const below = 2 * Math.floor((wanted - odd) / 2) + odd
  const near = [below - 2, below, below + 2, below + 4].filter((count) => count > 0 && count % STRANDS !== 0)
  return near.reduce((a, b) => (Math.abs(Math.log(b / wanted)) < Math.abs(Math.log(a / wanted)) ? b : a))
}

/** The part of a half period's parameter that lies between a crossing at an end and the touch `apart` touches off. */
const spanOf = (apart: number): number => (apart === 1 ? T : 1 - T)

function straightCourse(strip: Strip, repeat: number): Course {
  const { length, width, to } = strip
  const count = touchesFor(strip, (2 * STRANDS * length) / repeat)
  const step = length / count
  const rise = to === 'outer' ? width : -width
  return {
    strip,
    count,
    at: (i) => step * i,
    ending: [1, 0],
    crossing: [length, width / 2 - rise / 4],
    arrival: (i) => handleAtCrossing({ step, rise }, count - i),
  }
}

/** @param rise  height of a half period towards the edge of the end */
const handleAtCrossing = ({ step, rise }: { step: number; rise: number }, apart: number): Point => {
  const k = spanOf(apart) / 3
  return [k * SLOPE[0] * STRANDS * step, (apart === 1 ? k : -k) * SLOPE[1] * rise]
}

/** How far the even touches run on beyond the inner corner, and how far those on the edges move on, in the mitre's leans. */
const TURNS: Readonly<Record<Edge, { beyond: number; inner: number; outer: number }>> = {
  inner: { beyond: 0, inner: 0.1, outer: 0.75 },
  outer: { beyond: 0.3, inner: -0.35, outer: 0.3 },
}
/** Within how many widths of the mitre touches move. */
const REACH = 2.5
/** The slope to the line square to the mitre at which strands cross on it, and their handles there, in parts of the way. */
const LEAN = 0.7
const PULL = 0.36

function mitreCourse(strip: MitreStrip, repeat: number): Course {
  const { length, width, skew, from, to } = strip
  const across = skew * width
  const count = touchesFor(strip, (2 * STRANDS * (length + across / 2)) / repeat)
  const { beyond, inner, outer } = TURNS[to]
  const even = length + beyond * across
  const reach = Math.min(REACH * width, even)
  const f = to === 'outer' ? 0.27 : 0.68
  return {
    strip,
    count,
    at: (i) => {
      if (i === count) return to === 'outer' ? length + across : length
      const u = (even * i) / count
      const nearness = Math.min(1, Math.max(0, (u - even + reach) / reach))
      const isOuter = (from === 'outer') === (i % 2 === 0)
      return u + nearness * nearness * across * (isOuter ? outer : inner)
    },
    // Half of a turn about the inner corner, or straight out to the outer one.
    ending: to === 'inner' ? unit(mitreHeading(skew, 0)) : [1, 0],
    crossing: [length + f * across, f * width],
    arrival: (i, apart) => {
      const isUp = (count - i === 1) === (to === 'outer')
      const heading = unit(mitreHeading(skew, isUp ? LEAN : -LEAN))
      // Kept in the band.
      const room = (heading[1] > 0 ? f * width : (1 - f) * width) / Math.abs(heading[1])
      return scale(heading, Math.min(PULL * apart, room))
    },
  }
}

/** Square to the mitre, and so much along it, outwards. */
const mitreHeading = (skew: number, lean: number): Point => [1 + lean * skew, lean - skew]

/** A place on a strand, the controls of its curves before and after it, and whether it is a touch. */
interface Knot {
  readonly at: Point
  readonly before: Point
  readonly after: Point
  readonly touch?: number
}

/**
 * Along one strand, back along the second and along the third. At each end two strands cross on the end line, and there
 * the line turns, so that the cable runs on unbroken into the next stretch or into its own mirror image.
 */
function drawStrands(course: Course): Drawn {
  const { strip } = course
  const third = course.count % STRANDS
  const line = new StrokeBuilder([course.at(0), heightOf(strip, 0)])
  const touches: Touch[] = [{ edge: strip.from, after: 0 }]
  const follow = (knots: readonly Knot[], way: 'before' | 'after') => {
    for (let k = 1; k < knots.length; k++) {
      const [from, to] = [knots[k - 1]!, knots[k]!]
      line.cubicTo(from[way], to[way === 'after' ? 'before' : 'after'], to.at)
      if (to.touch !== undefined) touches.push({ edge: edgeOf(strip, to.touch), after: line.count })
    }
  }
  follow(knotsOf(course, 0), 'after')
  follow(knotsOf(course, STRANDS - third).reverse(), 'before')
  follow(knotsOf(course, third), 'after')
  return { stroke: line.build(), touches, repeats: course.count / (2 * STRANDS) }
}

const edgeOf = ({ from }: Strip, i: number): Edge =>
  (from === 'inner') === (i % 2 === 0) ? 'inner' : 'outer'
const heightOf = (strip: Strip, i: number): number => (edgeOf(strip, i) === 'inner' ? 0 : strip.width)

/** The knots of the strand whose first touch is number `first`: its touches, and crossings at the ends without one. */
function knotsOf(course: Course, first: number): Knot[] {
  const { count, strip } = course
  const last = count - ((count - first) % STRANDS)
  const knots: Knot[] = []
  if (first > 0) knots.push(startingAt(course, first))
  for (let i = first; i <= last; i += STRANDS) {
    const [u, v] = [course.at(i), heightOf(strip, i)]
    const level = (LEVEL * (course.at(i + STRANDS) - course.at(i - STRANDS))) / 2
    const back = i - STRANDS < 0 ? spanOf(first) : 1
    const on = i + STRANDS > count ? spanOf(count - last) : 1
    const [du, dv] = i === count ? scale(course.ending, level) : [back * level, 0]
    knots.push({ at: [u, v], before: [u - du, v - dv], after: [u + on * level, v], touch: i })
  }
  if (last < count) knots.push(endingAt(course, knots.at(-1)!))
  return knots
}

/** The crossing at the near end of a strand that goes on to touch `first`. */
function startingAt({ strip, at }: Course, first: number): Knot {
  const { width } = strip
  const rise = strip.from === 'inner' ? width : -width
  const [du, dv] = handleAtCrossing({ step: at(first) / first, rise }, first)
  const place: Point = [0, width / 2 + rise / 4]
  return { at: place, before: place, after: [du, place[1] + dv] }
}

/** The crossing at the far end of a strand that comes from a touch. */
function endingAt({ crossing, arrival }: Course, { at, touch }: Knot): Knot {
  const [du, dv] = arrival(touch!, distance(at, crossing))
  return { at: crossing, before: [crossing[0] - du, crossing[1] - dv], after: crossing }
}
