import { type Point, subtract, unit } from '../geometry/point.ts'
import type { Circle } from './circle-columns.ts'
import type { Drawn, Edge, MitreStrip, Strip } from './contract.ts'
import type { Heading } from './free-end.ts'
import { chainStroke, type Link, linkedSpirals, trimOf } from './linked-spirals.ts'
import {
  drawn,
  endsOf,
  keptInside,
  LEAD,
  leadOf,
  otherEdge,
  SEAM,
  type SpiralRun,
  tailOf,
} from './spiral-run.ts'
import { wedgeCircles } from './wedge-circles.ts'

/** In spacings: how far circles stay apart at least, and from a mitre; and from one along which the line runs home. */
const GAP = -0.2
const MITRE = 0.4
const LANE = 1.4
/** The least radius of the row's circles, in that of the last one at a mitre. */
const LEAST = 0.9
/** The radius of the smallest circle in a mitre's wedge, in spacings. */
const SMALLEST = 1.1
/** How far circles in the wedge stay from the mitre, if the line runs home along it and if not, in spacings. */
const WEDGE = { inner: 0.9, outer: 0.4 }
/** How far the line home keeps from the mitre, and from where on it turns into the inner corner, in spacings. */
const HOME = 0.5
const TURN = 1.1

/** The line runs along the edges, now the one, now the other. */
const scrolls = (count: number): Link[] => Array.from({ length: count - 1 }, () => 'along' as const)

/** The edge that `count` spirals begun along `first` end on. */
const lastEdge = (count: number, first: Edge): Edge => (count % 2 === 1 ? otherEdge(first) : first)

/** The radius of a circle as wide as the strip. */
const fullRadius = ({ width }: Strip, spacing: number): number => width / 2 - SEAM * spacing

/** Equal circles in the middle of the strip, the last one at `end`. */
const rowOf = (
  { repeats, width }: Strip,
  { end, pitch, radius }: { readonly end: number; readonly pitch: number; readonly radius: number },
): Circle[] =>
  Array.from({ length: repeats }, (_, i) => ({
    centre: [end - (repeats - 1 - i) * pitch, width / 2],
    radius,
  }))

/**
 * A row of equal spirals, one to a repeat, with even gaps: they stay round however long the strip is, and only a strip that
 * is too short for them makes them smaller.
 *
 * @param spacing  between lines, mm
 */
export function drawSpiralRow(strip: Strip, spacing: number): Drawn {
  const { repeats, from, to } = strip
  const leadOut = lastEdge(repeats, from) !== to
  const pitch = (strip.length - (leadOut ? LEAD * spacing : 0)) / repeats
  const radius = Math.min(fullRadius(strip, spacing), (pitch - GAP * spacing) / 2)
  const circles = rowOf(strip, { end: (repeats - 0.5) * pitch, pitch, radius })
  const run: SpiralRun = { strip, spacing, circles, links: scrolls(repeats), first: from, leadOut }
  const spirals = linkedSpirals(circles, run.links, { ...endsOf(run), spacing })
  return drawn(
    strip,
    chainStroke({ spirals, links: run.links }, leadOf(run), () => tailOf(run)),
  )
}

/**
 * A row of equal spirals up to a mitre: the last of them leans against it, smaller and smaller ones fill the wedge beyond,
 * and the line runs home, along the outer edge to the outer corner, along the mitre to the inner one.
 */
export function drawSpiralRowToMitre(strip: MitreStrip, spacing: number): Drawn {
  const { repeats, from, to } = strip
  // The last one is entered along the inner edge: all after it then turn the same way.
  const first = lastEdge(repeats, 'inner') === 'outer' ? 'inner' : 'outer'
  const circles = rowToMitre(strip, spacing, first === from ? 0 : LEAD * spacing)
  const keep = { fromEdge: SEAM * spacing, fromMitre: WEDGE[to] * spacing, least: SMALLEST * spacing }
  const wedge = wedgeCircles(strip, circles.at(-1)!, keep)
  const all = [...circles, ...wedge]
  const links = [...scrolls(repeats), ...wedge.map((): Link => 'through')]
  const run: SpiralRun = { strip, spacing, circles: all, links, first, leadOut: false }
  const home = to === 'inner' ? homeInward(strip, spacing) : homeOutward(strip, all.at(-1)!)
  const ends = { ...endsOf(run), leave: leavingFor(all.at(-1)!, home[0].at, spacing), spacing }
  return drawn(
    strip,
    chainStroke({ spirals: linkedSpirals(all, links, ends), links }, leadOf(run), (from) => [
      keptInside(from, home[0].at, strip.width),
      ...home,
    ]),
  )
}

/**
 * The row's circles: the last one stands against the mitre, as large as if the strip were long, so that all corners are
 * alike; those before it have even gaps, and only if they would be far smaller the last one is smaller too.
 */
function rowToMitre(strip: MitreStrip, spacing: number, begin: number): Circle[] {
  const { length, width, skew, repeats, to } = strip
  const slope = Math.hypot(1, skew)
  const wall = length + (skew * width) / 2 - (to === 'inner' ? LANE : MITRE) * spacing * slope
  const before = repeats - 1
  // As wide as the circles and their gaps, with half a gap where the strip begins.
  const gaps = (before + 0.5) * GAP * spacing
  const roomy = (wall - begin - gaps) / (slope + 1 + 2 * LEAST * before)
  const last = Math.min(fullRadius(strip, spacing), roomy)
  const end = wall - last * slope
  const room = end - last - begin
  const radius = Math.min(fullRadius(strip, spacing), (room - gaps) / (2 * Math.max(1, before)))
  const gap = (room - 2 * before * radius) / (before + 0.5)
  const pitch = 2 * radius + gap
  const row = rowOf({ ...strip, repeats: before }, { end: end - last - gap - radius, pitch, radius })
  return [...row, { centre: [end, width / 2], radius: last }]
}

/**
 * The angle to give as the way out of a spiral whose line runs out from v towards u, so that the line, trimmed there, leaves
 * the circle straight for a place.
 */
function leavingFor(circle: Circle, place: Point, spacing: number): number {
  const [x, y] = subtract(place, circle.centre)
  const tangent = Math.atan2(y, x) + Math.acos(Math.min(1, circle.radius / Math.hypot(x, y)))
  return tangent - trimOf(circle, spacing)
}

/** Straight into the outer corner. */
function homeOutward({ length, width, skew }: MitreStrip, { centre, radius }: Circle): readonly [Heading] {
  const corner: Point = [length + skew * width, width]
  return [{ at: corner, along: unit(subtract(corner, [centre[0], centre[1] + radius])) }]
}

/** Down beside the mitre and round into the inner corner, square to the mitre. */
function homeInward({ length, skew }: MitreStrip, spacing: number): readonly [Heading, Heading] {
  const slope = Math.hypot(1, skew)
  const up: Point = [skew / slope, 1 / slope]
  const square: Point = [up[1], -up[0]]
  const [high, aside] = [TURN * spacing, HOME * spacing]
  return [
    {
      at: [length + up[0] * high - square[0] * aside, up[1] * high - square[1] * aside],
      along: [-up[0], -up[1]],
    },
    { at: [length, 0], along: square },
  ]
}
