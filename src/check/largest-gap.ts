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

/**
 * The same for a field that is laid once for several regions, which must lie inside its box.
 *
 * @throws PlanError `check/empty-region` for a region without area
 */
export function gapsInField(field: StitchField, region: Region, exactness: Exactness = {}): Gaps {
  return {
    circle: circleInField(field, region, exactness),
    square: searchGap(searchIn(field, region, { ...exactness, metric: SQUARE })),
  }
}

/** How exactly a gap is wanted. */
export interface Exactness {
  /** What is found may be smaller than the largest there is by this much, mm. Left out: as exact as numbers are. */
  readonly within?: number
}

/** The largest circle alone. */
export const circleInField = (field: StitchField, region: Region, exactness: Exactness = {}): Gap =>
  searchGap(searchIn(field, region, { ...exactness, metric: ROUND }))

const searchIn = (
  field: StitchField,
  region: Region,
  { metric, within = 0 }: Exactness & { metric: Metric },
): Search => ({
  field,
  boundary: boundaryOf(region),
  metric,
  slack: within / 2,
})

interface Search {
  readonly field: StitchField
  readonly boundary: Boundary
  readonly metric: Metric
  /** A cell that can hold no more than this beyond the best is left out, mm. */
  readonly slack: number
}

/** A square cell under search: its middle, and how far that is from stitching and edge. */
interface Cell {
  readonly x: number
  readonly y: number
  readonly clear: number
  /** The stretches that can matter in the cell, once they have been looked up. */
  readonly near?: readonly number[]
}

/** Where halving cells stops, mm. */
const FINEST = 1e-9
/** Slack for rounding, mm. */
const ROUNDING = 1e-9
/** How many cells are kept when they are halved: many while they are coarse, few once only decimals are to be won. */
const KEPT = { coarse: 3000, fine: 24, fineBelow: 0.02 }
/** From how many cells away it pays to look up once which stretches can matter in a cell. */
const FAR_CELLS = 4
/** How many of the best cells are followed to their summit first, and on how narrow a path. */
const SUMMITS = { count: 12, kept: 4, finest: 0.01 }

/**
 * Branch and bound: a place's distance to stitching changes by at most the distance gone, so a cell can hold nothing
 * better than its middle's distance plus its reach. Cells that can hold something better than the best are quartered.
 * Where very many gaps are nearly equal only the most hopeful cells are followed, and what the others might hold is
 * told as `atMostMm`.
 */
function searchGap(search: Search): Gap {
  const half = search.field.cell / 2
  const first = firstCells(search)
  const kept = (size: number) => (size < KEPT.fineBelow ? KEPT.fine : KEPT.coarse)
  const finest = Math.max(FINEST, search.slack / 4)
  const found = descend(search, first.cells, { half, best: first.best, finest, kept })
  const { x, y, clear } = found.best
  const atMost = Math.max(0, clear + search.slack, found.atMost, first.atMost)
  return { sizeMm: 2 * Math.max(0, clear), at: [x, y], atMostMm: 2 * atMost }
}

interface Descent {
  /** Half side of the cells to begin with, mm. */
  readonly half: number
  readonly best: Cell
  /** Half side to end with, mm. */
  readonly finest: number
  /** How many cells of a half side may be quartered. */
  readonly kept: (half: number) => number
}

/** Quarters cells until they are as small as asked; `atMost` is what the cells left out may hold. */
function descend(
  search: Search,
  first: readonly Cell[],
  { half: start, best: known, finest, kept }: Descent,
) {
  const { reach } = search.metric
  let cells = first
  let best = known
  let atMost = -Infinity
  let half = start
  for (; half > finest; half /= 2) {
    const floor = best.clear + search.slack - half * reach
    const hopeful = cells.filter((cell) => cell.clear > floor)
    const followed = topOf(hopeful, kept(half))
    if (followed.length < hopeful.length) atMost = Math.max(atMost, leastOf(followed) + half * reach)
    const isWorthIt = followed.length <= KEPT.fine || best.clear > FAR_CELLS * search.field.cell
    // What its quarters must have to be followed in turn, whatever better place is found meanwhile.
    const least = best.clear + search.slack - (half / 2) * reach
    cells = followed.flatMap((cell) =>
      quarter(search, isWorthIt ? withNear(search, cell, half) : cell, { half: half / 2, least }),
    )
    best = bestOf([best, bestOf(cells)])
  }
  return { best, atMost: Math.max(atMost, bestOf(cells).clear + half * reach) }
}

const NOWHERE: Cell = { x: Number.NaN, y: Number.NaN, clear: Number.NEGATIVE_INFINITY }
const bestOf = (cells: readonly Cell[]): Cell =>
  cells.reduce((best, cell) => (cell.clear > best.clear ? cell : best), NOWHERE)

const leastOf = (cells: readonly Cell[]): number =>
  cells.reduce((least, { clear }) => Math.min(least, clear), Number.POSITIVE_INFINITY)

/** The cells with the greatest clearance, in no order; all of them if they are no more than asked. */
function topOf(cells: readonly Cell[], count: number): readonly Cell[] {
  if (cells.length <= count) return cells
  const sorted = new Float64Array(cells.length)
  for (let i = 0; i < sorted.length; i++) sorted[i] = cells[i]!.clear
  sorted.sort()
  const least = sorted[sorted.length - count]!
  const better = cells.filter((cell) => cell.clear > least)
  const equal = cells.filter((cell) => cell.clear === least)
  return [...better, ...equal.slice(0, count - better.length)]
}

function quarter(
  search: Search,
  { x, y, near }: Cell,
  { half, least }: { half: number; least: number },
): Cell[] {
  return [
    measure(search, [x - half, y - half], { near, least }),
    measure(search, [x + half, y - half], { near, least }),
    measure(search, [x - half, y + half], { near, least }),
    measure(search, [x + half, y + half], { near, least }),
  ]
}

/** What is farther from a cell's middle than its own clearance and twice its reach decides nothing inside it. */
function withNear({ field, metric }: Search, cell: Cell, half: number): Cell {
  const p: Point = [cell.x, cell.y]
  const within = cell.clear + 2 * half * metric.reach + ROUNDING
  const near = cell.near
    ? cell.near.filter((i) => metric.distance(p, field.stretches, i) <= within)
    : stretchesWithin(field, { p, within, metric })
  return { ...cell, near }
}

/** The cell about `p`; its clearance is exact unless it is below `least`, where any such value will do. */
function measure({ field, boundary, metric }: Search, p: Point, { near, least = 0 }: Known): Cell {
  let clear = depthInside(boundary, p, metric)
  if (near) for (const i of near) clear = Math.min(clear, metric.distance(p, field.stretches, i))
  else if (clear > least) clear = Math.min(clear, distanceToStitching(field, p, { metric, least }))
  return near ? { x: p[0], y: p[1], clear, near } : { x: p[0], y: p[1], clear }
}

/** What is known before a cell is measured. */
interface Known {
  /** No other stretches can matter in it. */
  readonly near?: readonly number[] | undefined
  /** Its clearance is of use from here on only, mm. */
  readonly least?: number
}

/** What the grid's own cells give: the best place known, the cells to quarter, and what those left out may hold. */
interface First {
  readonly best: Cell
  readonly cells: readonly Cell[]
  readonly atMost: number
}

/**
 * Looks at a few cells and follows the best to their summits; then at all cells that the distance transform does not
 * show to hold nothing better, or, if they are very many, at those that lie farthest from stitching.
 */
function firstCells(search: Search): First {
  const { field, boundary, metric } = search
  const half = field.cell / 2
  const reach = half * metric.reach
  const coarse = coarseDistances(field, metric)
  const summits = mostHopeful(search).map(
    (cell) =>
      descend(search, [cell], { half, best: cell, finest: SUMMITS.finest, kept: () => SUMMITS.kept }).best,
  )
  let best = bestOf([NOWHERE, ...summits])
  const floor = Math.max(0, best.clear)
  const hopeful: number[] = []
  const least = floor + search.slack
  // Where gaps are smaller than cells, a cell whose middle lies outside the region may hold the best place.
  const margin = floor > 2 * field.cell ? 0 : reach
  eachCentre(search, { step: 1, margin }, (i) => {
    if (coarse[i]! + 2 * reach > least && depthInside(boundary, centreOf(field, i), metric) + reach > least)
      hopeful.push(i)
  })
  const { chosen, farthestLeft } = farthestCells(hopeful, coarse)
  const cells: Cell[] = []
  for (const i of chosen) {
    const cell = measure(search, centreOf(field, i), { least: best.clear + search.slack - reach })
    if (cell.clear + reach <= best.clear + search.slack) continue
    cells.push(cell)
    if (cell.clear > best.clear) best = cell
  }
  return { best, cells, atMost: farthestLeft + 2 * reach }
}

/** Every so many-th cell across and down is looked at to find what there is to beat. */
const SAMPLED = 5
/** How many of a grid's cells are measured exactly. */
const MEASURED = 100_000

/** Some cells that by the distance transform have the greatest clearance, measured. */
function mostHopeful(search: Search): Cell[] {
  const { field, boundary, metric } = search
  const coarse = coarseDistances(field, metric)
  const seen: Cell[] = []
  eachCentre(search, { step: SAMPLED, margin: 0 }, (i) => {
    const p = centreOf(field, i)
    const clear = Math.min(coarse[i]!, depthInside(boundary, p, metric))
    if (clear > 0) seen.push({ x: p[0], y: p[1], clear })
  })
  return topOf(seen, SUMMITS.count).map(({ x, y }) => measure(search, [x, y], {}))
}

/** The cells farthest from stitching, as many as may be measured, evenly picked where many are as far. */
function farthestCells(cells: readonly number[], coarse: Float32Array) {
  if (cells.length <= MEASURED) return { chosen: cells, farthestLeft: Number.NEGATIVE_INFINITY }
  const sorted = Float32Array.from({ length: cells.length }, (_, k) => coarse[cells[k]!]!).sort()
  const limit = sorted[sorted.length - MEASURED]!
  const farther = cells.filter((i) => coarse[i]! > limit)
  const equal = cells.filter((i) => coarse[i]! === limit)
  const every = equal.length / (MEASURED - farther.length)
  const picked = equal.filter((_, k) => Math.floor((k + 1) / every) > Math.floor(k / every))
  return { chosen: [...farther, ...picked], farthestLeft: limit }
}

/** The middle of cell `i`. */
const centreOf = ({ box, cell, columns }: StitchField, i: number): Point => [
  box.minX + ((i % columns) + 0.5) * cell,
  box.minY + (Math.floor(i / columns) + 0.5) * cell,
]

/**
 * Calls `visit` with every `step`th cell, in rows, whose middle lies in the region, within a cell of it across, or within
 * `margin` of its edge, mm.
 */
function eachCentre(
  { field, boundary: { box, edges } }: Search,
  { step, margin }: { step: number; margin: number },
  visit: (cell: number) => void,
): void {
  const { cell, columns, rows } = field
  const firstRow = Math.max(0, Math.floor((box.minY - margin - field.box.minY) / cell))
  const lastRow = Math.min(rows - 1, Math.floor((box.maxY + margin - field.box.minY) / cell))
  const column = (x: number) => Math.floor((x - field.box.minX) / cell)
  for (let row = firstRow; row <= lastRow; row += step) {
    const y = field.box.minY + (row + 0.5) * cell
    const spans = spansAt(edges, y)
    if (margin > 0) spans.push(...spansBeside(edges, y, margin))
    for (const [from, to] of joined(spans.map(([a, b]) => [column(a) - 1, column(b) + 1]))) {
      const last = Math.min(columns - 1, to)
      for (let c = Math.max(0, from); c <= last; c += step) visit(row * columns + c)
    }
  }
}

type Span = readonly [from: number, to: number]

/** Where a level line runs inside the region, from left to right, mm. */
function spansAt({ ax, ay, bx, by, count }: Boundary['edges'], y: number): Span[] {
  const crossings: number[] = []
  for (let i = 0; i < count; i++) {
    if (ay[i]! > y === by[i]! > y) continue
    crossings.push(ax[i]! + ((bx[i]! - ax[i]!) * (y - ay[i]!)) / (by[i]! - ay[i]!))
  }
  crossings.sort((a, b) => a - b)
  return Array.from({ length: crossings.length >> 1 }, (_, k) => [crossings[2 * k]!, crossings[2 * k + 1]!])
}

/** Where a level line may come within `margin` of the region's edges, mm. */
function spansBeside({ ax, ay, bx, by, count }: Boundary['edges'], y: number, margin: number): Span[] {
  const spans: Span[] = []
  for (let i = 0; i < count; i++) {
    const [low, high] = [Math.min(ay[i]!, by[i]!), Math.max(ay[i]!, by[i]!)]
    if (low > y + margin || high < y - margin) continue
    const xAt = (level: number) => ax[i]! + (bx[i]! - ax[i]!) * ((level - ay[i]!) / (by[i]! - ay[i]!))
    const ends =
      low === high ? [ax[i]!, bx[i]!] : [xAt(Math.max(low, y - margin)), xAt(Math.min(high, y + margin))]
    spans.push([Math.min(...ends) - margin, Math.max(...ends) + margin])
  }
  return spans
}

/** Spans of whole numbers, in order, those that meet made one. */
function joined(spans: readonly Span[]): Span[] {
  const whole: Span[] = []
  for (const span of [...spans].sort((a, b) => a[0] - b[0])) {
    const before = whole.at(-1)
    if (before && span[0] <= before[1] + 1)
      whole[whole.length - 1] = [before[0], Math.max(before[1], span[1])]
    else whole.push(span)
  }
  return whole
}
