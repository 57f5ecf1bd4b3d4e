import type { Point } from '../geometry/point.ts'
import { type Metric, ROUND, SQUARE } from './metric.ts'
import type { Polyline } from './polyline.ts'
import { type Boundary, boundaryOf, depthInside, type Region } from './region.ts'
import {
  coarseDistances,
  distanceToStitching,
  layField,
  type StitchField,
  stretchesWithin,
} from './stitch-field.ts'

/** The largest place without stitching: a circle's diameter or a square's side, and its middle. */
export interface Gap {
  /** mm */
  readonly sizeMm: number
  readonly at: Point
  /** No gap of the region is larger than this, mm: what the search has proved. */
  readonly atMostMm: number
}

/** The largest circle and the largest upright square of a region. */
export interface Gaps {
  readonly circle: Gap
  readonly square: Gap
}

/**
 * The largest circle inside a region that no stitching enters, and the largest such square with upright sides.
 *
 * @param stitching  polylines such as stitches, mm
 * @param region     where to look: the quilt less its binding, or a band
 * @throws PlanError `check/empty-region` for a region without area
 */
export function largestGap(stitching: readonly Polyline[], region: Region): Gaps {
  return gapsInField(layField(stitching, boundaryOf(region).box), region)
}

/** How exactly a gap is wanted. */
export interface GapSearch {
  /** The size found is the largest there is, less this at most, mm. Left out: as exact as numbers are. */
  readonly within?: number
}

/**
 * The same for a field that is laid once for several regions, which must lie inside its box.
 *
 * @throws PlanError `check/empty-region` for a region without area
 */
export function gapsInField(field: StitchField, region: Region, { within = 0 }: GapSearch = {}): Gaps {
  const boundary = boundaryOf(region)
  const slack = within / 2
  return {
    circle: searchGap({ field, boundary, metric: ROUND, slack }),
    square: searchGap({ field, boundary, metric: SQUARE, slack }),
  }
}

interface Search {
  readonly field: StitchField
  readonly boundary: Boundary
  readonly metric: Metric
  /** A cell that can hold no more than this beyond the best is left out, mm. */
  readonly slack: number
}

/** A square cell under search: its middle, how far that is from stitching and edge, what the cell may hold at most. */
interface Cell {
  readonly x: number
  readonly y: number
  readonly clear: number
  readonly atMost: number
  /** The stretches that can matter in the cell, once they have been looked up. */
  readonly near: readonly number[] | undefined
}

/** Where halving cells stops, mm. */
const FINEST = 1e-9
/** Slack for rounding, mm. */
const ROUNDING = 1e-9
/** How many cells are kept when they are halved: many while they are coarse, few once only decimals are to be won. */
const KEPT = { coarse: 40_000, fine: 24, fineBelow: 0.02 }

/**
 * Branch and bound: a place's distance to stitching changes by at most the distance gone, so a cell can hold nothing
 * better than its middle's distance plus its reach. Cells that can hold something better than the best are quartered.
 */
function searchGap(search: Search): Gap {
  let half = search.field.cell / 2
  let cells = firstCells(search)
  let best = bestOf(cells)
  let dropped = search.slack > 0 ? best.clear + search.slack : 0
  while (half > FINEST && cells.length > 0) {
    const hopeful = cells.filter((cell) => cell.atMost > best.clear + search.slack)
    const kept = keepBest(hopeful, half)
    dropped = Math.max(dropped, kept.dropped)
    half /= 2
    cells = kept.cells.flatMap((cell) => quarter(search, cell, half))
    best = cells.length > 0 ? bestOf([best, bestOf(cells)]) : best
    if (search.slack > 0) dropped = Math.max(dropped, best.clear + search.slack)
  }
  const atMost = cells.reduce((most, cell) => Math.max(most, cell.atMost), Math.max(best.clear, dropped))
  return { sizeMm: 2 * Math.max(0, best.clear), at: [best.x, best.y], atMostMm: 2 * Math.max(0, atMost) }
}

const NOWHERE: Cell = { x: NaN, y: NaN, clear: -Infinity, atMost: -Infinity, near: undefined }
const bestOf = (cells: readonly Cell[]): Cell =>
  cells.reduce((best, cell) => (cell.clear > best.clear ? cell : best), NOWHERE)

function keepBest(cells: Cell[], half: number) {
  const most = half < KEPT.fineBelow ? KEPT.fine : KEPT.coarse
  if (cells.length <= most) return { cells, dropped: 0 }
  cells.sort((a, b) => b.atMost - a.atMost)
  return { cells: cells.slice(0, most), dropped: cells[most]!.atMost }
}

function quarter(search: Search, cell: Cell, half: number): Cell[] {
  const { x, y } = cell
  const near = stretchesNear(search, cell, 2 * half)
  const corners: Point[] = [
    [x - half, y - half],
    [x + half, y - half],
    [x - half, y + half],
    [x + half, y + half],
  ]
  return corners.map((p) => measure(search, { p, half, near }))
}

/** What is farther from a cell's middle than its own clearance and twice its reach decides nothing inside it. */
function stretchesNear({ field, metric }: Search, cell: Cell, half: number): readonly number[] {
  const p: Point = [cell.x, cell.y]
  const within = cell.clear + 2 * half * metric.reach + ROUNDING
  if (!cell.near) return stretchesWithin(field, { p, within, metric })
  return cell.near.filter((i) => metric.distance(p, field.stretches, i) <= within)
}

interface Place {
  readonly p: Point
  readonly half: number
  readonly near?: readonly number[]
}

function measure({ field, boundary, metric }: Search, { p, half, near }: Place): Cell {
  let clear = depthInside(boundary, p, metric)
  if (near) for (const i of near) clear = Math.min(clear, metric.distance(p, field.stretches, i))
  else if (clear > 0) clear = Math.min(clear, distanceToStitching(field, p, metric))
  return { x: p[0], y: p[1], clear, atMost: clear + half * metric.reach, near }
}

/**
 * The grid's own cells, but those that can hold nothing better than one of them: the most hopeful are measured first, and
 * the rest is left out as soon as none of it can win.
 */
function firstCells(search: Search): Cell[] {
  const floor = sampleFloor(search)
  const { field, boundary, metric } = search
  const half = field.cell / 2
  const reach = half * metric.reach
  const coarse = coarseDistances(field, metric)
  const hopeful: { p: Point; bound: number }[] = []
  // Where gaps are smaller than cells, a cell whose middle lies outside the region may hold the best place.
  const walk = floor > 2 * field.cell ? eachCentreInside : eachCentre
  walk(search, 1, (p, i) => {
    if (coarse[i]! + 2 * reach <= floor) return
    const bound = Math.min(coarse[i]! + 2 * reach, depthInside(boundary, p, metric) + reach)
    if (bound > floor) hopeful.push({ p, bound })
  })
  hopeful.sort((one, other) => other.bound - one.bound)
  const cells: Cell[] = []
  let best = Number.NEGATIVE_INFINITY
  for (const { p, bound } of hopeful) {
    if (bound <= best + search.slack) break
    const cell = measure(search, { p, half })
    cells.push(cell)
    best = Math.max(best, cell.clear)
  }
  return cells
}

/** What some cells have for certain, mm: where the search starts from. */
function sampleFloor(search: Search): number {
  const { field, boundary, metric } = search
  const coarse = coarseDistances(field, metric)
  const certain: { p: Point; clear: number }[] = []
  let floor = 0
  eachCentreInside(search, 3, (p, i) => {
    const clear = Math.min(coarse[i]!, 1e9)
    if (clear <= floor) return
    const inside = Math.min(clear, depthInside(boundary, p, metric))
    if (inside > floor) {
      certain.push({ p, clear: inside })
      floor = inside
    }
  })
  const measured = certain.slice(-16).map(({ p }) => measure(search, { p, half: 0 }).clear)
  return Math.max(0, ...measured) * (1 - 1e-12)
}

/** Calls `visit` with the centre of every `step`th cell of the region's box. */
function eachCentre(
  { field, boundary: { box } }: Search,
  step: number,
  visit: (p: Point, cell: number) => void,
): void {
  const { cell, columns, rows } = field
  const from = (value: number, origin: number) => Math.max(0, Math.floor((value - origin) / cell))
  const [minColumn, minRow] = [from(box.minX, field.box.minX), from(box.minY, field.box.minY)]
  const maxColumn = Math.min(columns - 1, from(box.maxX, field.box.minX))
  const maxRow = Math.min(rows - 1, from(box.maxY, field.box.minY))
  for (let row = minRow; row <= maxRow; row += step) {
    const y = field.box.minY + (row + 0.5) * cell
    for (let column = minColumn; column <= maxColumn; column += step) {
      visit([field.box.minX + (column + 0.5) * cell, y], row * columns + column)
    }
  }
}

/** The same, of cells whose middle lies in the region or within a cell of it across. */
function eachCentreInside(
  { field, boundary: { box, edges } }: Search,
  step: number,
  visit: (p: Point, cell: number) => void,
): void {
  const { cell, columns, rows } = field
  const firstRow = Math.max(0, Math.floor((box.minY - field.box.minY) / cell))
  const lastRow = Math.min(rows - 1, Math.floor((box.maxY - field.box.minY) / cell))
  const column = (x: number) => Math.floor((x - field.box.minX) / cell)
  for (let row = firstRow; row <= lastRow; row += step) {
    const y = field.box.minY + (row + 0.5) * cell
    const crossings = crossingsAt(edges, y)
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const last = Math.min(columns - 1, column(crossings[k + 1]!) + 1)
      for (let c = Math.max(0, column(crossings[k]!) - 1); c <= last; c += step) {
        visit([field.box.minX + (c + 0.5) * cell, y], row * columns + c)
      }
    }
  }
}

/** Where a level line crosses the region's edges, from left to right, mm. */
function crossingsAt({ ax, ay, bx, by, count }: Boundary['edges'], y: number): number[] {
  const crossings: number[] = []
  for (let i = 0; i < count; i++) {
    if (ay[i]! > y === by[i]! > y) continue
    crossings.push(ax[i]! + ((bx[i]! - ax[i]!) * (y - ay[i]!)) / (by[i]! - ay[i]!))
  }
  return crossings.sort((a, b) => a - b)
}
