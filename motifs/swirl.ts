import { distanceToLine, type Point, polar } from '../src/geometry/point.ts'
import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { type DoubleSpiral, doubleSpiral } from '../src/motif/double-spiral.ts'
import { drawnFree, type FreeStrip, freeStrip, LedLine } from '../src/motif/free-end.ts'
import { inches } from '../src/units.ts'

const DEGREE = Math.PI / 180
/** The middle distance between big swirls, in widths. */
const PITCH = 1.25

export default defineMotif({
  title: 'Swirl',
  source:
    'Archimedean spirals r = b theta, half a turn apart, with small ones branching off; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Between lines',
      default: { widths: 0.14 },
      min: inches(0.2),
      max: inches(1.2),
    },
  },
  suits: { min: inches(2), max: inches(8) },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width) => PITCH * width,
  draw: (strip, { spacing }) =>
    drawnFree(strip, swirls(freeStrip(strip), { spacing, repeats: strip.repeats })),
})

interface Fill {
  readonly spacing: number
  readonly repeats: number
}

/** What is the same all along a strip, and where the big swirls stand. */
interface Frame {
  readonly length: number
  readonly width: number
  readonly s: number
  /** Radius of a big swirl. */
  readonly big: number
  readonly centres: readonly Point[]
}

function swirls(strip: FreeStrip, { spacing, repeats }: Fill): Stroke {
  const { width } = strip
  const s = Math.min(0.2 * width, Math.max(0.08 * width, spacing))
  const layout = arrange(strip, s, repeats)
  const frame: Frame = { width, s, big: (width - s) / 2, ...layout }
  const { centres } = frame
  const line = new LedLine({ at: [0, 0], heading: 0 })
  openBelow(line, frame, centres[0]!)
  centres.forEach((centre, i) => {
    const before = centres[i - 1]
    if (before) passBottom(line, frame, before, centre)
    passTop(line, frame, before, centre)
    const isReturning = i === centres.length - 1 && strip.returns
    const outAt = (isReturning ? -15 : -75) * DEGREE
    follow(line, { centre, radius: frame.big, spacing: s, inAt: 95 * DEGREE, outAt, turn: -1 })
  })
  if (strip.returns) closeBelow(line, frame, centres.at(-1)!)
  else closeAbove(line, frame, centres.at(-1)!)
  const stretch = { a: strip.length / layout.length, b: 0, c: 0, d: 1, e: 0, f: 0 }
  return transformStroke(line.build(), stretch)
}

/** Centres of big swirls in a strip of a length in which they are round, as near to the strip's as can be. */
function arrange({ length, width }: FreeStrip, s: number, repeats: number) {
  const layouts = [repeats - 1, repeats, repeats + 1]
    .filter((count) => count > 0)
    .map((count) => {
      const least = width + 2.6 * s + (count - 1) * (width + 0.5 * s)
      const most = 1.6 * width + 2 * s + (count - 1) * 1.4 * width
      const round = Math.min(most, Math.max(least, length))
      const spare = (round - least) / (most - least)
      const end = width / 2 + 1.3 * s + spare * (0.3 * width - 0.3 * s)
      const pitch = count > 1 ? (round - 2 * end) / (count - 1) : 0
      const centres = Array.from({ length: count }, (_, i): Point => [end + i * pitch, width / 2])
      return { length: round, centres, strain: Math.abs(Math.log(length / round)) }
    })
  return layouts.reduce((best, next) => (next.strain < best.strain ? next : best))
}

function follow(line: LedLine, spiral: DoubleSpiral): void {
  const { entry, exit, segments } = doubleSpiral(spiral)
  line.to(entry).along(segments, exit.heading)
}

/** The same, led round a circle where the straight way there would cut into it. */
function followRound(line: LedLine, { centre, radius }: Circle, spiral: DoubleSpiral): void {
  const { at } = doubleSpiral(spiral).entry
  if (distanceToLine(centre, line.at, at) < radius) {
    const [a, b] = [angleTo(centre, line.at), angleTo(centre, at)]
    const middle = Math.atan2(Math.sin(a) + Math.sin(b), Math.cos(a) + Math.cos(b))
    const side = Math.sign(Math.sin(b - a))
    line.to({ at: polar(centre, radius, middle), heading: middle + (side * Math.PI) / 2 })
  }
  follow(line, spiral)
}

interface Circle {
  readonly centre: Point
  readonly radius: number
}

/** The circle that touches the line y = `floor` and two circles that stand to its left and right. */
function nestle(left: Circle, right: Circle, limits: { floor: number; most: number }): Circle {
  const place = (r: number): Point => {
    const [x, y] = right.centre
    const drop = y - limits.floor - r
    return [x - Math.sqrt(Math.max(0, (right.radius + r) ** 2 - drop * drop)), limits.floor + r]
  }
  let [low, high] = [0, limits.most]
  for (let i = 0; i < 50; i++) {
    const r = (low + high) / 2
    const [x, y] = place(r)
    if (Math.hypot(x - left.centre[0], y - left.centre[1]) > left.radius + r) low = r
    else high = r
  }
  return { centre: place(low), radius: low }
}

const angleTo = (from: Point, to: Point): number => Math.atan2(to[1] - from[1], to[0] - from[0])

/** From a big swirl through a small one at the bottom towards the next big one's left. */
function passBottom(line: LedLine, { big, s, width }: Frame, before: Point, next: Point): void {
  const { centre, radius } = nestle(
    { centre: before, radius: big + 0.15 * s },
    { centre: next, radius: big + 0.5 * s },
    { floor: s / 2, most: (width - 2 * s) / 4 },
  )
  follow(line, {
    centre,
    radius,
    spacing: s,
    inAt: angleTo(centre, before) - 30 * DEGREE,
    outAt: angleTo(centre, next) - 30 * DEGREE,
    turn: -1,
  })
}

/** From the left of a big swirl into a small one above and back out, onto the big one's top. */
function passTop(line: LedLine, frame: Frame, before: Point | undefined, next: Point): void {
  const { big, s, width } = frame
  const flip = ([x, y]: Point): Point => [x, width - y]
  const nest = nestle(
    before ? { centre: flip(before), radius: big + 0.75 * s } : { centre: [-1e6, 0], radius: 1e6 + s / 2 },
    { centre: flip(next), radius: big + 0.5 * s },
    { floor: 0.75 * s, most: (width - 2 * s) / 4 },
  )
  const centre = flip(nest.centre)
  followRound(
    line,
    { centre: next, radius: big + s / 2 },
    {
      centre,
      radius: nest.radius,
      spacing: s,
      inAt: angleTo(centre, next) + 30 * DEGREE,
      outAt: 78 * DEGREE,
      turn: 1,
    },
  )
}

/** The small swirl that nestles in the corner at the strip's start, beside the first big one. */
function cornerNest({ big, s, width }: Frame, centre: Point): Circle {
  return nestle(
    { centre: [-1e6, 0], radius: 1e6 + s / 2 },
    { centre, radius: big + 0.7 * s },
    { floor: 0.75 * s, most: (width - 2 * s) / 4 },
  )
}

/** From the strip's start round a small swirl in the corner, upward. */
function openBelow(line: LedLine, frame: Frame, first: Point): void {
  const nest = cornerNest(frame, first)
  follow(line, { ...nest, spacing: frame.s, inAt: 258 * DEGREE, outAt: 160 * DEGREE, turn: 1 })
}

/** From the last big swirl through the two corners at the strip's end: the way in at the start, turned half round. */
function closeAbove(line: LedLine, frame: Frame, last: Point): void {
  const { big, s, width, length } = frame
  const turned = ([x, y]: Point): Point => [length - x, width - y]
  const mirror = ([x, y]: Point): Point => [length - x, y]
  const below = cornerNest(frame, mirror(last))
  const above = cornerNest(frame, turned(last))
  const centre = mirror(below.centre)
  follow(line, {
    centre,
    radius: below.radius,
    spacing: s,
    inAt: -102 * DEGREE,
    outAt: angleTo(centre, last) + 30 * DEGREE,
    turn: 1,
  })
  followRound(
    line,
    { centre: last, radius: big + s / 2 },
    {
      centre: turned(above.centre),
      radius: above.radius,
      spacing: s,
      inAt: -20 * DEGREE,
      outAt: 78 * DEGREE,
      turn: 1,
    },
  )
  line.to({ at: [length, width], heading: 0 })
}

/** From the last big swirl up into a small one in the corner, and down through another to the near edge. */
function closeBelow(line: LedLine, frame: Frame, last: Point): void {
  const { width, length, s } = frame
  const turned = ([x, y]: Point): Point => [length - x, width - y]
  const mirror = ([x, y]: Point): Point => [length - x, y]
  const above = cornerNest(frame, turned(last))
  const below = cornerNest(frame, mirror(last))
  const [x, y] = turned(above.centre)
  const r = above.radius
  line.to({ at: [x - r, y], heading: 90 * DEGREE })
  line.to({ at: [x, y + r], heading: 0 })
  line.to({ at: [x + r, y], heading: -90 * DEGREE })
  follow(line, {
    centre: mirror(below.centre),
    radius: below.radius,
    spacing: s,
    inAt: 30 * DEGREE,
    outAt: -102 * DEGREE,
    turn: -1,
  })
  line.to({ at: [length, 0], heading: 0 })
}
