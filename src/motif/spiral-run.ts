import { distance, type Point, subtract, unit } from '../geometry/point.ts'
import { strokeRange } from '../geometry/range.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Circle } from './circle-columns.ts'
import type { Drawn, Edge, MitreStrip, Strip } from './contract.ts'
import { type DoubleSpiral, drawDoubleSpiral } from './double-spiral.ts'
import type { Heading } from './free-end.ts'
import { chainStroke, type Ends, type Link, linkedSpirals, trimOf } from './linked-spirals.ts'
import { footOf, largestAtMitre, type MitreTriangle } from './mitre-circles.ts'
import { bisector } from './wedge-circles.ts'

/** How far circles stay from the edges, in spacings. */
export const SEAM = 0.4
/** Margins in spacings: of spirals to the ends, of a lead up an end, of circles to a mitre. */
const WALL = 0.25
export const LEAD = 0.95
const MITRE = 0.4
/** The smallest circle that holds a spiral, in spacings. */
const SMALLEST = 0.95
/** The angle off the level at which a lead up an end meets its spiral. */
const SHOULDER = 0.6

export const otherEdge = (edge: Edge): Edge => (edge === 'inner' ? 'outer' : 'inner')
/** The sense in which a line that runs along an edge winds into a circle there. */
export const turnAt = (edge: Edge): 1 | -1 => (edge === 'inner' ? 1 : -1)

/** A chain of spirals for a strip: where it is begun, and whether leads run up its ends from the other edge. */
export interface SpiralRun {
  readonly strip: Strip
  /** mm */
  readonly spacing: number
  /** Touching circles in the order of the line, the first one near u = 0. */
  readonly circles: readonly Circle[]
  readonly links: readonly Link[]
  /** The edge along which the first spiral is entered; the strip's own, or the other one if a lead runs up to it. */
  readonly first: Edge
  readonly leadOut: boolean
}

const leadsIn = (run: SpiralRun): boolean => run.first !== run.strip.from

/** How a run's chain is entered and left. */
export function endsOf({ strip, spacing, circles, first, leadOut }: SpiralRun): Ends {
  const [turn, turnOut] = [turnAt(first), turnAt(strip.to)]
  const [head, tail] = [trimOf(circles[0]!, spacing), trimOf(circles.at(-1)!, spacing)]
  return {
    turn,
    enter: first === strip.from ? -turn * (Math.PI / 2 + head) : Math.PI + turn * SHOULDER,
    leave: leadOut ? turnOut * SHOULDER : -turnOut * (Math.PI / 2 - tail),
  }
}

/** How far the spirals reach along the strip, mm: measured on those alone that may reach furthest. */
function reachOf(all: readonly DoubleSpiral[]): { from: number; to: number } {
  const furthest = (side: 1 | -1) => {
    const reach = all.map(({ centre, radius }) => side * centre[0] + radius)
    // A spiral reaches no further than a spacing past its radius, and no less than two short of it.
    const sure = Math.max(...all.map(({ spacing }, i) => reach[i]! - 2 * spacing))
    return all.filter(({ spacing }, i) => reach[i]! + spacing >= sure)
  }
  const near = [...new Set([...furthest(-1), ...furthest(1)])]
  const ranges = near.map((spiral) => strokeRange(drawDoubleSpiral(spiral), 0))
  return {
    from: Math.min(...ranges.map(([least]) => least)),
    to: Math.max(...ranges.map(([, most]) => most)),
  }
}

/**
 * Where a lead runs up an end of the strip: abreast of the spiral that it meets, at least half way across, and, if that
 * is far from the corner that it rounds, near that corner too.
 */
function wallOf(run: SpiralRun, circle: Circle, end: { readonly u: number; readonly edge: Edge }): Heading[] {
  const { strip, spacing } = run
  const up = turnAt(end.edge)
  const corner = end.edge === 'inner' ? 0 : strip.width
  const far = Math.max(strip.width / 2, Math.abs(circle.centre[1] - corner) - circle.radius)
  const heights = far > 8 * spacing ? [3 * spacing, far] : [far]
  return heights.map((height): Heading => ({ at: [end.u, corner + up * height], along: [0, up] }))
}

/** From the start at the edge, and up the end where a lead is wanted. */
export function leadOf(run: SpiralRun): readonly [Heading, ...Heading[]] {
  const { width, from } = run.strip
  const start: Heading = { at: [0, from === 'inner' ? 0 : width], along: [1, 0] }
  if (!leadsIn(run)) return [start]
  return [{ ...start, pull: 0.25 }, ...wallOf(run, run.circles[0]!, { u: 0.5 * run.spacing, edge: from })]
}

/** Down the end where a lead is wanted, and to the edge. */
export function tailOf(run: SpiralRun, skew = 0): readonly Heading[] {
  const { width, length, to } = run.strip
  const end: Heading = { at: to === 'inner' ? [length, 0] : [length + skew * width, width], along: [1, 0] }
  if (!run.leadOut) return [end]
  const wall = wallOf(run, run.circles.at(-1)!, { u: length - 0.5 * run.spacing, edge: to })
  const down = wall.map(({ at, along }): Heading => ({ at, along: [0, -along[1]] }))
  return [...down.reverse(), { ...end, pull: 0.25 }]
}

/**
 * The run brought between the ends of its strip: the circles' centres are moved, but they stay round. Where there is more room
 * they stand further apart along the strip, where there is less they are smaller, and so are their spirals.
 */
function fitted<R extends SpiralRun>(run: R, all: readonly DoubleSpiral[], marginOut: number): R {
  const { from, to } = reachOf(all)
  const [before, after] = [
    (WALL + (leadsIn(run) ? LEAD : 0)) * run.spacing,
    (marginOut + (run.leadOut ? LEAD : 0)) * run.spacing,
  ]
  const room = run.strip.length - before - after
  const size = Math.min(1, room / (to - from))
  // What is left between the middles of the smallest: so none of them is moved beyond an end.
  const ends = 2 * Math.min(...run.circles.map((c) => c.radius))
  const apart = size < 1 ? size : (room - ends) / (to - from - ends)
  const middle = (from + to) / 2
  const circles = run.circles.map(
    ({ centre: [u, v], radius }): Circle => ({
      centre: [before + room / 2 + (u - middle) * apart, v],
      radius: radius * size,
      spacing: run.spacing * size,
    }),
  )
  return { ...run, circles }
}

/** The spirals of a run. */
const spiralsOf = (run: SpiralRun, ends = endsOf(run)): DoubleSpiral[] =>
  linkedSpirals(run.circles, run.links, { ...ends, spacing: run.spacing })

/** Draws a run up to the square end of its strip, or on to the far corner of a mitre too narrow for a spiral. */
export function drawSpiralRun(run: SpiralRun, skew = 0): Drawn {
  const placed = fitted(run, spiralsOf(run), WALL)
  const chain = { spirals: spiralsOf(placed), links: run.links }
  return drawn(
    run.strip,
    chainStroke(chain, leadOf(placed), () => tailOf(placed, skew)),
  )
}

/**
 * Circles in the mitre's triangle: a small one at the inner corner, a large one, a small one at the outer corner, in
 * the order in which the line visits them; those too small for a spiral are left out.
 */
function cornerCircles(run: SpiralRun, triangle: MitreTriangle, last: readonly Circle[]): Circle[] {
  const inward = run.strip.to === 'inner'
  const full = largestAtMitre(triangle, last, [0, 1])
  const large = { ...full, radius: full.radius * (inward ? 0.85 : 0.9) }
  const foot = footOf(triangle, large)
  const edge = { ...triangle, fromEdge: (inward ? 0.6 : SEAM) * run.spacing }
  const lane = inward ? 0.4 * run.spacing : 0
  const near = [...last.map((c) => ({ ...c, radius: c.radius + lane })), large]
  const low = largestAtMitre(triangle, near, [0, foot[0]])
  const tip = largestAtMitre(edge, [...last, large], [foot[1], 1])
  const all = inward ? [tip, large, low] : [low, large, tip]
  return all.filter((c) => c.radius >= SMALLEST * run.spacing)
}

/** A stroke from edge to edge that touches nowhere else. */
export const drawn = (strip: Strip, stroke: Stroke): Drawn => ({
  stroke,
  touches: [
    { edge: strip.from, after: 0 },
    { edge: strip.to, after: stroke.segments.length },
  ],
})

/** The angle at which a line that turns against the clock leaves a circle for the inner corner, by way of the mitre. */
function homeward(circle: Circle, goal: Point): number {
  const [x, y] = subtract(goal, circle.centre)
  const away = Math.hypot(x, y)
  return Math.atan2(y, x) - Math.acos(Math.min(1, circle.radius / away)) + 0.4
}

/** A heading whose joint to a place has its handle within the strip, so that the curve stays there. */
export function keptInside(from: Heading, to: Point, width: number): Heading {
  const [, v] = from.at
  const slope = from.along[1]
  const room = slope > 0 ? width - v : v
  const pull = from.pull ?? 0.4
  return { ...from, pull: Math.min(pull, Math.max(0, room) / (Math.abs(slope) * distance(from.at, to))) }
}

/** How the line leaves the last circle of a corner for the corner itself. */
function homeOf(run: SpiralRun & { strip: MitreStrip }, last: Circle, links: readonly Link[]) {
  const { length, skew, width, to } = run.strip
  const goal: Point = to === 'inner' ? [length, 0] : [length + skew * width, width]
  const flips = links.filter((link) => link === 'along').length
  const clockwise = turnAt(run.first) * (flips % 2 === 0 ? 1 : -1) === 1
  const straight = to === 'inner' || clockwise
  return {
    leave: to === 'inner' ? homeward(last, goal) : clockwise ? 1 : -0.6,
    tail: (from: Heading): Heading[] => [
      keptInside(from, goal, width),
      { at: goal, along: straight ? unit(subtract(goal, from.at)) : bisector(skew) },
    ],
  }
}

/**
 * Draws a run up to a mitre: the spirals of the strip, then those of the corner, which are never stretched, and home
 * to the inner or outer corner. The last spiral before an inner corner must be wound in from u towards v.
 *
 * @param ending  how many of the last circles stand next to the mitre's triangle
 */
export function drawSpiralCorner(run: SpiralRun & { strip: MitreStrip }, ending: number): Drawn {
  const { strip, spacing } = run
  const plain = spiralsOf(run, { ...endsOf(run), leave: 0 })
  const row = fitted(run, plain, 0)
  const triangle: MitreTriangle = {
    inner: [strip.length, 0],
    outer: [strip.length + strip.skew * strip.width, strip.width],
    fromMitre: MITRE * spacing,
    fromEdge: (strip.to === 'inner' ? 1.2 : SEAM) * spacing,
  }
  // Beside the last column in its full size: whatever the strip's length, the corner is the same.
  const shift = strip.length - reachOf(plain).to
  const last = run.circles
    .slice(-ending)
    .map((c): Circle => ({ ...c, centre: [c.centre[0] + shift, c.centre[1]] }))
  const corner = cornerCircles(run, triangle, last)
  if (corner.length === 0) return drawSpiralRun(run, strip.skew)
  const joints = corner.map((_, i): Link => (strip.to === 'inner' && i === 0 ? 'along' : 'through'))
  const links = [...run.links, ...joints]
  const whole = { ...row, circles: [...row.circles, ...corner], links }
  const home = homeOf(run, corner.at(-1)!, links)
  const spirals = spiralsOf(whole, { ...endsOf(whole), leave: home.leave })
  return drawn(strip, chainStroke({ spirals, links }, leadOf(whole), home.tail))
}
