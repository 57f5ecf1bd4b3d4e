import type { Affine } from '../geometry/affine.ts'
import { distance, type Point } from '../geometry/point.ts'
import { type Box, boundsOf } from '../geometry/stroke.ts'
import { edgeAt, type HalfFit } from '../motif/fit.ts'
import { fitsWithin, NO_BOX } from './box.ts'
import type { Reach } from './pieces.ts'
import type { SideFrame } from './side-frame.ts'

/** One side of a band of a group. */
export interface BandShape {
  /** Of either half of the side. */
  readonly frames: { readonly left: SideFrame; readonly right: SideFrame }
  /** Its place in the fit; undefined for a pieced band. */
  readonly inFit: number | undefined
  /** Its filler runs there and back in one stretch. */
  readonly isFree: boolean
  /** Its stretches end on lines that lean with the mitre; others end square to the seams, but at the corner. */
  readonly fans: boolean
}

/** How one side of a group is divided. */
export interface SideShape {
  /** The group's bands, from the inside out. */
  readonly bands: readonly BandShape[]
  readonly fit: HalfFit
  readonly stretches: number
  readonly phase: 0 | 1
}

/** A cell is worked in steps of this part of the reach. */
const STEP = 0.25

/**
 * How often the quilt is moved while a group is stitched once round, there and back through its bands: reckoned before
 * anything is drawn, from the boxes of its stretches. The work begins where the first side's corner area ends.
 *
 * @param sides  of each side, what `sectorBoxes` says of it
 */
export function reckonMoves(sides: readonly (readonly (readonly Box[])[])[], reach: Reach): number {
  const sectors = sides.flat()
  const [width, height] = reach
  let moves = 0
  let { minX, minY, maxX, maxY } = NO_BOX
  // Plain numbers: this is asked of very many boxes.
  for (let i = 1; i <= sectors.length; i++)
    for (const step of sectors[i % sectors.length]!) {
      minX = Math.min(minX, step.minX)
      minY = Math.min(minY, step.minY)
      maxX = Math.max(maxX, step.maxX)
      maxY = Math.max(maxY, step.maxY)
      if (maxX - minX <= width && maxY - minY <= height) continue
      moves++
      ;({ minX, minY, maxX, maxY } = step)
    }
  return moves
}

/**
 * No work round a ring takes fewer moves: of a convex ring that is larger than the reach both ways, no more than the width
 * and the height of the reach lies within it at a time.
 */
export function leastMoves(ring: readonly Point[], [width, height]: Reach): number {
  const { minX, minY, maxX, maxY } = boundsOf(ring)
  if (maxX - minX <= width || maxY - minY <= height) return 0
  const length = ring.reduce((sum, a, i) => sum + distance(a, ring[(i + 1) % ring.length]!), 0)
  return length / (width + height) - 1
}

/** The boxes in which the needle works in turn, for each sector of one side, through the bands outward and inward in turn. */
export function sectorBoxes(side: SideShape, reach: Reach): Box[][] {
  const stations = Array.from({ length: side.stretches }, (_, station) => station)
  const sectors = [
    ...stations.map((station) => ({ station, half: 'left' as const })),
    ...stations.reverse().map((station) => ({ station, half: 'right' as const })),
  ]
  return sectors.map(({ station, half }, i) => {
    const bands = i % 2 === 0 ? side.bands : [...side.bands].reverse()
    return bands.flatMap((band, turn) =>
      stepsOf(side, { band, station, half, reach, isForward: turn % 2 === 0 }),
    )
  })
}

interface CellPlace {
  readonly band: BandShape
  readonly station: number
  readonly half: 'left' | 'right'
  readonly reach: Reach
  /** Walked clockwise. */
  readonly isForward: boolean
}

/** In the order of the walk, the boxes in which the needle works along a cell; one if it is all over the cell at once. */
function stepsOf(shape: SideShape, { band, station, half, reach, isForward }: CellPlace): Box[] {
  const frame = band.frames[half]
  const [near, far] = [station + 1, station].map((at) => stationAt(shape, band, { station: at, frame })) as [
    Across,
    Across,
  ]
  // What is deeper than the reach can't be helped.
  const depth = Math.min(frame.width, ...reach)
  const part = (from: number, to: number): Box => {
    const [innerFrom, innerTo] = [mix(near.inner, far.inner, from), mix(near.inner, far.inner, to)]
    const [outerFrom, outerTo] = [mix(near.outer, far.outer, from), mix(near.outer, far.outer, to)]
    const low = Math.min(innerFrom, innerTo, outerFrom, outerTo)
    const high = Math.max(innerFrom, innerTo, outerFrom, outerTo)
    return boxOf(frame.place, { low, high, depth })
  }
  const box = part(0, 1)
  if (band.isFree && fitsWithin(box, reach)) return [box]
  const along = Math.max(Math.abs(far.inner - near.inner), Math.abs(far.outer - near.outer))
  const count = Math.max(1, Math.ceil(along / (STEP * Math.min(...reach))))
  const steps = Array.from({ length: count }, (_, i) => part(i / count, (i + 1) / count))
  // From the middle to the corner is clockwise in a side's right half only.
  const walked = (half === 'right') === isForward ? steps : steps.reverse()
  return band.isFree ? [...walked, ...[...walked].reverse(), ...walked] : walked
}

/** Where a line across a band's frame meets its two seams. */
interface Across {
  readonly inner: number
  readonly outer: number
}

/** Where a stretch that ends at a station meets its band's two seams. */
function stationAt(
  { fit, phase, stretches }: SideShape,
  { inFit: k, fans }: BandShape,
  { station, frame }: { station: number; frame: SideFrame },
): Across {
  const edge = k === undefined ? undefined : edgeAt(k, station, phase)
  const share = k === undefined ? 1 - station / stretches : fit.at[edge === 'inner' ? k : k + 1]![station]!
  const inner = share * frame.innerHalf
  const outer = frame.outerMiddle + share * frame.outerHalf
  if (edge === undefined || fans || station === 0) return { inner, outer }
  return edge === 'inner' ? { inner, outer: inner } : { inner: outer, outer }
}

const mix = (a: number, b: number, t: number): number => a + (b - a) * t

/** The box round a strip from `low` to `high` along its seam and `depth` deep, as it lies on the quilt. */
function boxOf(
  { a, b, c, d, e, f }: Affine,
  { low, high, depth }: { readonly low: number; readonly high: number; readonly depth: number },
): Box {
  const least = (along: number, across: number) =>
    along * (along < 0 ? high : low) + across * (across < 0 ? depth : 0)
  const greatest = (along: number, across: number) =>
    along * (along < 0 ? low : high) + across * (across < 0 ? 0 : depth)
  return {
    minX: least(a, c) + e,
    minY: least(b, d) + f,
    maxX: greatest(a, c) + e,
    maxY: greatest(b, d) + f,
  }
}
