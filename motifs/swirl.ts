import { distanceToLine, type Point, polar } from '../src/geometry/point.ts'
import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { type DoubleSpiral, doubleSpiral } from '../src/motif/double-spiral.ts'
import { drawnFree, type FreeStrip, freeStrip, LedLine } from '../src/motif/free-end.ts'
import { type Circle, nestle, round, slant, wall } from '../src/motif/nest.ts'
import { inches } from '../src/units.ts'

const DEGREE = Math.PI / 180

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
  repeat: (width) => 1.25 * width,
  draw: (strip, { spacing }) => drawnFree(strip, swirls(freeStrip(strip), spacing)),
  drawToMitre: (strip, { spacing }) => drawnFree(strip, swirls(freeStrip(strip), spacing)),
})

/** What is the same all along a strip, and where the big swirls stand. */
interface Frame {
  /** Up to the end line at half the width, mm. */
  readonly length: number
  readonly width: number
  /** Between lines. */
  readonly s: number
  /** Radius of a big swirl. */
  readonly big: number
  /** How far the end line leans: x per y. */
  readonly lean: number
  readonly centres: readonly Point[]
}

function swirls(strip: FreeStrip, spacing: number): Stroke {
  const { width, returns } = strip
  const s = Math.min(0.17 * width, Math.max(0.08 * width, spacing))
  const layout = arrange(strip, s)
  const stretch = strip.length / layout.length
  const frame: Frame = { width, s, big: (width - s) / 2, ...layout }
  const line = new LedLine({ at: [0, 0], heading: 0 })
  openBelow(line, frame)
  frame.centres.forEach((centre, i) => {
    const before = frame.centres[i - 1]
    if (before) passBottom(line, frame, before, centre)
    passTop(line, frame, before, centre)
    const isLast = i === frame.centres.length - 1
    const outAt = isLast ? lastExit(frame, returns) : -75 * DEGREE
    follow(line, { centre, radius: frame.big, spacing: s, inAt: 95 * DEGREE, outAt, turn: -1 })
  })
  if (strip.lean !== 0) closeAtMitre(line, frame, returns)
  else if (returns) closeBelow(line, frame)
  else closeAbove(line, frame)
  return transformStroke(line.build(), { a: stretch, b: 0, c: 0, d: 1, e: 0, f: 0 })
}

/** Where the big swirls stand in a strip of a length in which they are round, as near to the strip's as can be. */
interface Layout {
  readonly length: number
  readonly lean: number
  readonly centres: readonly Point[]
}

function arrange(strip: FreeStrip, s: number): Layout {
  const { repeats, length } = strip
  const strain = (layout: Layout) => Math.abs(Math.log(length / layout.length))
  return [repeats - 1, repeats, repeats + 1]
    .filter((count) => count > 0)
    .map((count) => settle(strip, s, count))
    .reduce((best, next) => (strain(next) < strain(best) ? next : best))
}

/** A layout of `count` big swirls: the end line leans more where the strip is to be pressed together. */
function settle(strip: FreeStrip, s: number, count: number): Layout {
  let layout = layOut(strip, s, count)
  for (let i = 0; i < 4; i++) {
    const lean = (strip.lean * layout.length) / strip.length
    layout = layOut({ ...strip, lean }, s, count)
  }
  return { ...layout, lean: (strip.lean * layout.length) / strip.length }
}

function layOut({ length, width, lean, returns }: FreeStrip, s: number, count: number): Layout {
  const gap = lean > 0 && returns ? 2.1 * s : 1.6 * s
  const beside = lean === 0 ? width / 2 + 1.3 * s : Math.hypot(1, lean) * (width / 2 - s / 2 + gap)
  const least = width / 2 + 1.3 * s + beside + (count - 1) * (width + 0.5 * s)
  const most = least + (count + 1) * (0.3 * width - 0.3 * s)
  const fair = Math.min(most, Math.max(least, length))
  const spare = (fair - least) / (count + 1)
  const first = width / 2 + 1.3 * s + spare
  const pitch = width + 0.5 * s + spare
  const centres = Array.from({ length: count }, (_, i): Point => [first + i * pitch, width / 2])
  return { length: fair, lean, centres }
}

function follow(line: LedLine, spiral: DoubleSpiral): void {
  const { entry, exit, segments } = doubleSpiral(spiral)
  line.to(entry).along(segments, exit.heading)
}

/** The same, led round a circle where the straight way there would cut into it. */
function followRound(line: LedLine, circle: Circle, spiral: DoubleSpiral): void {
  leadRound(line, circle, doubleSpiral(spiral).entry.at)
  follow(line, spiral)
}

/** Leads a line past a circle, if the straight way to `at` would cut into it. */
function leadRound(line: LedLine, { centre, radius }: Circle, at: Point): void {
  if (distanceToLine(centre, line.at, at) >= radius) return
  const [a, b] = [angleTo(centre, line.at), angleTo(centre, at)]
  const middle = Math.atan2(Math.sin(a) + Math.sin(b), Math.cos(a) + Math.cos(b))
  const side = Math.sign(Math.sin(b - a))
  line.to({ at: polar(centre, radius, middle), heading: middle + (side * Math.PI) / 2 })
}

const angleTo = (from: Point, to: Point): number => Math.atan2(to[1] - from[1], to[0] - from[0])

/** How large a small swirl may be, so that one above and one below leave a line's distance between them. */
const mostSmall = ({ width, s }: Frame): number => (width - 2 * s) / 4

/** From a big swirl through a small one at the bottom towards the next big one's left. */
function passBottom(line: LedLine, frame: Frame, before: Point, next: Point): void {
  const { big, s } = frame
  const { centre, radius } = nestle({
    left: round({ centre: before, radius: big + 0.15 * s }),
    right: round({ centre: next, radius: big + 0.5 * s }),
    floor: s / 2,
    most: mostSmall(frame),
    within: { min: before[0], max: next[0] },
  })
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
  const nest = nestle({
    left: before ? round({ centre: before, radius: big + 0.75 * s }) : wall(s / 2),
    right: round({ centre: next, radius: big + 0.5 * s }),
    floor: 0.75 * s,
    most: mostSmall(frame),
    within: { min: before?.[0] ?? 0, max: next[0] },
  })
  const centre: Point = [nest.centre[0], width - nest.centre[1]]
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

/** The small swirl that nestles in a corner at x = 0, y = 0, beside a big one. */
function cornerNest(frame: Frame, centre: Point): Circle {
  const { big, s } = frame
  return nestle({
    left: wall(s / 2),
    right: round({ centre, radius: big + 0.7 * s }),
    floor: 0.75 * s,
    most: mostSmall(frame),
    within: { min: 0, max: centre[0] },
  })
}

/** From the strip's start round a small swirl in the corner, upward. */
function openBelow(line: LedLine, frame: Frame): void {
  const nest = cornerNest(frame, frame.centres[0]!)
  follow(line, { ...nest, spacing: frame.s, inAt: 285 * DEGREE, outAt: 160 * DEGREE, turn: 1 })
}

/** The two small swirls in the corners at the strip's end. */
function lastNests(frame: Frame): { below: Circle; above: Circle; last: Point } {
  const last = frame.centres.at(-1)!
  const { centre, radius } = cornerNest(frame, [frame.length - last[0], last[1]])
  const x = frame.length - centre[0]
  return {
    below: { centre: [x, centre[1]], radius },
    above: { centre: [x, frame.width - centre[1]], radius },
    last,
  }
}

/** From the last big swirl through the two corners at the strip's end: the way in at the start, turned half round. */
function closeAbove(line: LedLine, frame: Frame): void {
  const { s, width, length } = frame
  const { below, above, last } = lastNests(frame)
  const outAt = angleTo(below.centre, last) + 30 * DEGREE
  follow(line, { ...below, spacing: s, inAt: -102 * DEGREE, outAt, turn: 1 })
  followRound(
    line,
    { centre: last, radius: frame.big + s / 2 },
    { ...above, spacing: s, inAt: -20 * DEGREE, outAt: 78 * DEGREE, turn: 1 },
  )
  line.to({ at: [length, width], heading: 0 })
}

/** From the last big swirl over an arch in the corner, and down through a small swirl to the near edge. */
function closeBelow(line: LedLine, frame: Frame): void {
  const { below, above } = lastNests(frame)
  const [x, y] = above.centre
  const r = above.radius
  line.to({ at: [x - r, y], heading: 90 * DEGREE })
  line.to({ at: [x, y + r], heading: 0 })
  line.to({ at: [x + r, y], heading: -90 * DEGREE })
  follow(line, { ...below, spacing: frame.s, inAt: 30 * DEGREE, outAt: -102 * DEGREE, turn: -1 })
  line.to({ at: [frame.length, 0], heading: 0 })
}

/** The swirl in the acute corner that the end line makes with the edge towards which it leans. */
function mitreNest({ length, width, s, big, lean, centres }: Frame): Circle {
  const last = centres.at(-1)!
  const tip = length + (Math.abs(lean) * width) / 2
  const { centre, radius } = nestle({
    left: round({ centre: last, radius: big + 0.15 * s }),
    right: slant({ foot: tip - (s / 2) * Math.hypot(1, lean), slope: -Math.abs(lean) }),
    floor: 0.75 * s,
    most: width / 3,
    within: { min: last[0], max: tip },
  })
  return { centre: lean > 0 ? [centre[0], width - centre[1]] : centre, radius }
}

/** In which direction the last big swirl is left. */
function lastExit(frame: Frame, returns: boolean): number {
  if (frame.lean === 0) return (returns ? -15 : -75) * DEGREE
  return angleTo(frame.centres.at(-1)!, mitreNest(frame).centre) - 25 * DEGREE
}

/** From the last big swirl through one in the mitre's acute corner to one end of the end line. */
function closeAtMitre(line: LedLine, frame: Frame, returns: boolean): void {
  const { length, width, lean, s, big, centres } = frame
  const last = centres.at(-1)!
  const nest = mitreNest(frame)
  const towards = angleTo(nest.centre, last)
  const spiral = { ...nest, spacing: s, turn: -1 } as const
  const end: Point = [length + (returns ? -1 : 1) * lean * (width / 2), returns ? 0 : width]
  const up = returns ? -1 : 1
  if (lean > 0 !== returns) {
    // To the acute corner, round the small swirl.
    const [inAt, outAt] = returns ? [20 * DEGREE, -80 * DEGREE] : [100 * DEGREE, -65 * DEGREE]
    const angle = towards - 50 * DEGREE
    line.to({ at: polar(nest.centre, nest.radius + 0.3 * s, angle), heading: angle - 90 * DEGREE })
    follow(line, { ...spiral, radius: nest.radius - (returns ? 0.6 * s : 0), inAt, outAt })
  } else {
    // Back between the big swirl and the end line to the obtuse corner.
    const radius = nest.radius - (returns ? 0 : 0.25 * s)
    follow(line, {
      ...spiral,
      radius,
      inAt: towards - 30 * DEGREE,
      outAt: (returns ? -125 : 12) * DEGREE,
    })
    const hook: Point = [end[0] - 0.7 * s, end[1] - up * s]
    leadRound(line, { centre: last, radius: big + (returns ? 1.35 : 0.9) * s }, hook)
    line.to({ at: hook, heading: up * 95 * DEGREE })
  }
  line.to({ at: end, heading: 0 })
}
