import type { Point } from '../src/geometry/point.ts'
import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawnFree, type FreeStrip, freeStrip, LedLine } from '../src/motif/free-end.ts'
import { type Circle, nestle, round, wall } from '../src/motif/nest.ts'
import {
  angleTo,
  closeAtMitre,
  type Frame,
  follow,
  followRound,
  frameFor,
  mitreNest,
} from '../src/motif/spiral-row.ts'
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

function swirls(strip: FreeStrip, spacing: number): Stroke {
  const { width, returns } = strip
  const s = Math.min(0.17 * width, Math.max(0.08 * width, spacing))
  const give = 0.3 * (width - s)
  const frame = frameFor(strip, s, { end: width / 2 + 1.3 * s, pitch: width + 0.5 * s, give })
  const stretch = strip.length / frame.length
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

/** In which direction the last big swirl is left. */
function lastExit(frame: Frame, returns: boolean): number {
  if (frame.lean === 0) return (returns ? -15 : -75) * DEGREE
  return angleTo(frame.centres.at(-1)!, mitreNest(frame).centre) - 25 * DEGREE
}
