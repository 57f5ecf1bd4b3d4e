import { add, type Point, polar } from '../../geometry/point.ts'
import { inches } from '../../units.ts'
import { incircle, PatchView } from './patch-shape.ts'

/** The distance between the lines of two arms, as a value that a plan may give. */
export const ARM_SPACING = {
  kind: 'length',
  label: 'Spacing',
  default: { widths: 0.16 },
  min: inches(0.1),
  max: inches(2),
} as const

/** A spiral's place: the angle about its middle (radians) and how deep it lies inside the edge, mm. */
export interface SpiralPlace {
  readonly angle: number
  readonly depth: number
}

/** Places on one turn. */
const PER_TURN = 20
/** Places left out at each open end. */
const SLANT = 2
/** Even the shortest arm makes this part of a turn. */
const LEAST_TURNS = 0.3

/**
 * Two arms that wind side by side into the middle and meet there: in at one angle, out at another. All lines lie
 * `spacing` apart, the outermost half as far inside the edge.
 *
 * @param patch          how large it is and how closely stitched
 * @param patch.radius   from the middle to the edge, mm
 * @param patch.spacing  mm; made smaller where fewer than two lines would fit
 */
export function doubleSpiral(
  { radius, spacing }: { radius: number; spacing: number },
  { enter, leave }: { enter: number; leave: number },
): SpiralPlace[] {
  const step = Math.min(spacing, radius / (1 + 2 * LEAST_TURNS))
  const turns = (radius / step - 1) / 2
  // The way out lies half a turn of depth further in than the way in, so that it ends `back` turns before the entrance.
  const back = turnsBetween(leave, enter)
  const inward = places(turns, 0).map((turn) => ({ turn, depth: step * (0.5 + 2 * turn) }))
  const outward = places(turns - 0.5, -back)
    .reverse()
    .map((turn) => ({ turn, depth: step * Math.max(0.25, 1.5 + 2 * turn) }))
  return [...inward, ...outward].map(({ turn, depth }) => ({ angle: enter + 2 * Math.PI * turn, depth }))
}

/** A patch's double spiral, in at its first corner and out at the corner across, and what it is laid on. */
export function spiralAcross(
  corners: readonly Point[],
  spacing: number,
): {
  readonly places: SpiralPlace[]
  readonly view: PatchView
  readonly radius: number
  readonly last: number
} {
  const { middle, radius } = incircle(corners)
  const view = new PatchView(middle, corners)
  const last = cornersAcross(corners)[0]!
  const [enter, leave] = [view.angleOf(corners[0]!), view.angleOf(corners[last]!)]
  return { places: doubleSpiral({ radius, spacing }, { enter, leave }), view, radius, last }
}

/** The spiral without its outermost bits, so that a line from outside runs into it at a slant. */
export function openEnded(spiral: readonly SpiralPlace[]): SpiralPlace[] {
  const spare = Math.min(SLANT, Math.floor((spiral.length - 4) / 2))
  return spiral.slice(Math.max(0, spare), spiral.length - Math.max(0, spare))
}

/** Evenly spaced numbers from `first` up to `last`, both included. */
function places(last: number, first: number): number[] {
  const count = Math.max(1, Math.ceil((last - first) * PER_TURN))
  return Array.from({ length: count + 1 }, (_, i) => first + ((last - first) * i) / count)
}

/** Turns, from 0 to 1, clockwise on the screen from one direction to another. */
export function turnsBetween(from: number, to: number): number {
  const turns = (to - from) / (2 * Math.PI)
  return turns - Math.floor(turns)
}

/** For each corner of a patch the one that lies most nearly across the middle from it. */
export function cornersAcross(corners: readonly Point[]): number[] {
  const view = new PatchView(incircle(corners).middle, corners)
  const angles = corners.map((p) => view.angleOf(p))
  return angles.map((from, first) => {
    const miss = (i: number) => Math.abs(turnsBetween(angles[i]!, from) - 0.5)
    const others = angles.flatMap((_, i) => (i === first ? [] : [i]))
    return others.reduce((best, i) => (miss(i) < miss(best) - 1e-9 ? i : best))
  })
}

/** A spiral's places in a circle. */
export const onCircle = (middle: Point, radius: number) => (place: SpiralPlace) =>
  add(middle, polar([0, 0], radius - place.depth, place.angle))
