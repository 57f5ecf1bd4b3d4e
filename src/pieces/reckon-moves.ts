import type { Affine } from '../geometry/affine.ts'
import { edgeAt, type HalfFit } from '../motif/fit.ts'
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
 * The boxes in which the needle works in turn along one side, of its sectors from its left corner to its right one: four
 * numbers each, minX, minY, maxX, maxY, mm.
 */
export interface SideWalk {
  readonly boxes: readonly number[]
  /** How many of the numbers belong to the first sector. */
  readonly firstSector: number
}

/**
 * How often the quilt is moved while a group is stitched once round, there and back through its bands: reckoned before
 * anything is drawn, from the boxes of its stretches. The work begins where the first side's corner area ends.
 *
 * @param sides  of each side, what `walkSide` says of it
 */
export function reckonMoves(sides: readonly SideWalk[], reach: Reach): number {
  const counter = new MoveCounter(reach)
  const begin = sides[0]!.firstSector
  sides.forEach(({ boxes }, side) => counter.walk(boxes, side === 0 ? begin : 0, boxes.length))
  counter.walk(sides[0]!.boxes, 0, begin)
  return counter.moves
}

/** Moves the quilt when the needle leaves what lies within the reach. */
class MoveCounter {
  moves = 0
  readonly #reach: Reach
  #minX = Number.POSITIVE_INFINITY
  #minY = Number.POSITIVE_INFINITY
  #maxX = Number.NEGATIVE_INFINITY
  #maxY = Number.NEGATIVE_INFINITY

  constructor(reach: Reach) {
    this.#reach = reach
  }

  walk(boxes: readonly number[], from: number, to: number): void {
    const [width, height] = this.#reach
    for (let i = from; i < to; i += 4) {
      const minX = Math.min(this.#minX, boxes[i]!)
      const minY = Math.min(this.#minY, boxes[i + 1]!)
      const maxX = Math.max(this.#maxX, boxes[i + 2]!)
      const maxY = Math.max(this.#maxY, boxes[i + 3]!)
      const fits = maxX - minX <= width && maxY - minY <= height
      if (!fits) this.moves++
      this.#minX = fits ? minX : boxes[i]!
      this.#minY = fits ? minY : boxes[i + 1]!
      this.#maxX = fits ? maxX : boxes[i + 2]!
      this.#maxY = fits ? maxY : boxes[i + 3]!
    }
  }
}

/** The boxes in which the needle works along one side, through the bands of its sectors outward and inward in turn. */
export function walkSide(side: SideShape, reach: Reach): SideWalk {
  const boxes: number[] = []
  const cell = (half: 'left' | 'right', station: number) => {
    const isOutward = (half === 'left' ? station : side.stretches * 2 - 1 - station) % 2 === 0
    side.bands.forEach((_, turn) => {
      const band = side.bands[isOutward ? turn : side.bands.length - 1 - turn]!
      addSteps(boxes, side, { band, station, half, reach, isForward: turn % 2 === 0 })
    })
  }
  let firstSector = 0
  for (let station = 0; station < side.stretches; station++) {
    cell('left', station)
    if (station === 0) firstSector = boxes.length
  }
  for (let station = side.stretches - 1; station >= 0; station--) cell('right', station)
  return { boxes, firstSector }
}

interface CellPlace {
  readonly band: BandShape
  readonly station: number
  readonly half: 'left' | 'right'
  readonly reach: Reach
  /** Walked clockwise. */
  readonly isForward: boolean
}

/** Adds, in the order of the walk, the boxes in which the needle works along a cell; one if it is all over it at once. */
function addSteps(
  boxes: number[],
  shape: SideShape,
  { band, station, half, reach, isForward }: CellPlace,
): void {
  const frame = band.frames[half]
  const near = stationAt(shape, band, { station: station + 1, frame })
  const far = stationAt(shape, band, { station, frame })
  // What is deeper than the reach can't be helped.
  const depth = Math.min(frame.width, reach[0], reach[1])
  const cell = { place: frame.place, depth, near, far }
  if (band.isFree && fitsIn(cell, reach)) {
    addBox(boxes, cell, 0, 1)
    return
  }
  const along = Math.max(Math.abs(far.inner - near.inner), Math.abs(far.outer - near.outer))
  const count = Math.max(1, Math.ceil(along / (STEP * Math.min(reach[0], reach[1]))))
  // From the middle to the corner is clockwise in a side's right half only.
  const isAscending = (half === 'right') === isForward
  addRun(boxes, cell, { count, isAscending })
  if (!band.isFree) return
  addRun(boxes, cell, { count, isAscending: !isAscending })
  addRun(boxes, cell, { count, isAscending })
}

/** A stretch of a band between two lines across it. */
interface Cell {
  readonly place: Affine
  readonly depth: number
  readonly near: Across
  readonly far: Across
}

function addRun(
  boxes: number[],
  cell: Cell,
  { count, isAscending }: { readonly count: number; readonly isAscending: boolean },
): void {
  for (let i = 0; i < count; i++) {
    const step = isAscending ? i : count - 1 - i
    addBox(boxes, cell, step / count, (step + 1) / count)
  }
}

function fitsIn(cell: Cell, [width, height]: Reach): boolean {
  const box: number[] = []
  addBox(box, cell, 0, 1)
  const [minX, minY, maxX, maxY] = box as [number, number, number, number]
  return maxX - minX <= width && maxY - minY <= height
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

/** Adds the box round a part of a cell, as it lies on the quilt. */
function addBox(boxes: number[], { place, depth, near, far }: Cell, from: number, to: number): void {
  const innerFrom = mix(near.inner, far.inner, from)
  const innerTo = mix(near.inner, far.inner, to)
  const outerFrom = mix(near.outer, far.outer, from)
  const outerTo = mix(near.outer, far.outer, to)
  const low = Math.min(innerFrom, innerTo, outerFrom, outerTo)
  const high = Math.max(innerFrom, innerTo, outerFrom, outerTo)
  const { a, b, c, d, e, f } = place
  boxes.push(
    a * (a < 0 ? high : low) + c * (c < 0 ? depth : 0) + e,
    b * (b < 0 ? high : low) + d * (d < 0 ? depth : 0) + f,
    a * (a < 0 ? low : high) + c * (c < 0 ? 0 : depth) + e,
    b * (b < 0 ? low : high) + d * (d < 0 ? 0 : depth) + f,
  )
}
