import type { Affine } from '../geometry/affine.ts'
import type { Box } from '../geometry/stroke.ts'
import { edgeAt, type HalfFit } from '../motif/fit.ts'
import { fitsWithin, NO_BOX, unionOf } from './box.ts'
import type { Reach } from './pieces.ts'
import type { SideFrame } from './side-frame.ts'

/** A stretch of a band as the needle will work it. */
interface Cell {
  /** In the order of the walk, the boxes in which the needle works along it; one if it is all over the cell at once. */
  readonly steps: readonly Box[]
}

/** One side of a band of a group. */
export interface BandShape {
  /** Of either half of the side. */
  readonly frames: { readonly left: SideFrame; readonly right: SideFrame }
  /** Its place in the fit; undefined for a pieced band. */
  readonly inFit: number | undefined
  /** Its filler runs there and back in one stretch. */
  readonly isFree: boolean
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
 * anything is drawn, from the boxes of its stretches.
 */
export function reckonMoves(sides: readonly SideShape[], reach: Reach): number {
  let moves = 0
  let box = NO_BOX
  for (const cell of cellsInOrder(sides, reach)) {
    for (const step of cell.steps) {
      const both = unionOf(box, step)
      if (fitsWithin(both, reach)) box = both
      else {
        moves++
        box = step
      }
    }
  }
  return moves
}

/** Sector after sector round the quilt, through the bands outward and inward in turn. */
function cellsInOrder(sides: readonly SideShape[], reach: Reach): Cell[] {
  const sectors = sides.flatMap((side) => {
    const stations = Array.from({ length: side.stretches }, (_, station) => station)
    return [
      ...stations.map((station) => ({ side, station, half: 'left' as const })),
      ...stations.reverse().map((station) => ({ side, station, half: 'right' as const })),
    ]
  })
  return sectors.flatMap(({ side, station, half }, i) => {
    const bands = i % 2 === 0 ? side.bands : [...side.bands].reverse()
    return bands.map((band, turn) => cellOf(side, { band, station, half, reach, isForward: turn % 2 === 0 }))
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

function cellOf(shape: SideShape, { band, station, half, reach, isForward }: CellPlace): Cell {
  const frame = band.frames[half]
  const near = acrossAt(frame, stationAt(shape, band, station + 1))
  const far = acrossAt(frame, stationAt(shape, band, station))
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
  if (band.isFree && fitsWithin(box, reach)) return { steps: [box] }
  const along = Math.max(Math.abs(far.inner - near.inner), Math.abs(far.outer - near.outer))
  const count = Math.max(1, Math.ceil(along / (STEP * Math.min(...reach))))
  const steps = Array.from({ length: count }, (_, i) => part(i / count, (i + 1) / count))
  // From the middle to the corner is clockwise in a side's right half only.
  const walked = (half === 'right') === isForward ? steps : steps.reverse()
  return { steps: band.isFree ? [...walked, ...[...walked].reverse(), ...walked] : walked }
}

/** Where a line across a band's frame meets its two seams. */
interface Across {
  readonly inner: number
  readonly outer: number
}

const acrossAt = (frame: SideFrame, share: { inner: number; outer: number }): Across => ({
  inner: share.inner * frame.innerHalf,
  outer: frame.outerMiddle + share.outer * frame.outerHalf,
})

/** Where a station lies on a band's two seams, as shares of their half lengths. */
function stationAt({ fit, phase, stretches }: SideShape, { inFit: k }: BandShape, station: number): Across {
  const even = 1 - station / stretches
  if (k === undefined) return { inner: even, outer: even }
  const edge = edgeAt(k, station, phase)
  const share = fit.at[edge === 'inner' ? k : k + 1]![station]!
  return { inner: share, outer: share }
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
