import type { Point } from '../geometry/point.ts'
import type { Box } from '../geometry/stroke.ts'
import { assertWithin } from '../stitch/within-limits.ts'
import { type CellGrid, type CellIndex, cellAt, gridOver, sortIntoCells } from './cell-index.ts'
import { chessboardDistances, squaredDistances } from './distance-transform.ts'
import { type Metric, ROUND } from './metric.ts'
import { type Polyline, type Stretches, stretchesOf, stretchLength } from './polyline.ts'

/** Stitching laid over a grid of square cells, so that the distance to it is found fast and exactly. */
export interface StitchField extends CellGrid, CellIndex {
  readonly stretches: Stretches
  /** Distance between centres, from each cell to the nearest with stitching in it, mm. */
  readonly round: Float32Array
  readonly square: Float32Array
}

/** How many cells a field has at most, about: as many as the first for any stitching, up to the second where it is dense. */
const MOST_CELLS = { plain: 300_000, dense: 1_200_000 }
/** How many cells go to the mean distance between lines of stitching, where that asks for more cells. */
const CELLS_APART = 3
/** Cells smaller than this bring nothing, mm. */
const SMALLEST_CELL = 1

/**
 * Lays stitching over a grid.
 *
 * @param stitching  polylines such as stitches, mm; what lies outside `box` is left out
 * @param box        what the gaps are looked for in
 * @throws PlanError `check/box` for a box without area
 */
export function layField(stitching: readonly Polyline[], box: Box): StitchField {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY]
  assertWithin('check/box', [
    { at: '', value: width, min: 1e-3, max: 1e5, unit: 'mm' },
    { at: '', value: height, min: 1e-3, max: 1e5, unit: 'mm' },
  ])
  const stretches = stretchesOf(stitching)
  const apart = (width * height) / Math.max(totalLength(stretches), SMALLEST_CELL)
  const wanted = Math.min(Math.sqrt((width * height) / MOST_CELLS.plain), apart / CELLS_APART)
  const grid = gridOver(box, { cell: Math.max(SMALLEST_CELL, wanted), most: MOST_CELLS.dense })
  const { starts, items } = sortIntoCells(stretches, grid)
  const marked = new Uint8Array(grid.columns * grid.rows)
  for (let i = 0; i < marked.length; i++) marked[i] = starts[i + 1]! > starts[i]! ? 1 : 0
  const round = squaredDistances(marked, grid)
  for (let i = 0; i < round.length; i++) round[i] = Math.sqrt(round[i]!) * grid.cell
  const square = chessboardDistances(marked, grid)
  for (let i = 0; i < square.length; i++) square[i]! *= grid.cell
  return { ...grid, stretches, starts, items, round, square }
}

function totalLength(stretches: Stretches): number {
  let sum = 0
  for (let i = 0; i < stretches.count; i++) sum += stretchLength(stretches, i)
  return sum
}

/** Something that looks at ranges of a field's items. */
interface Looker {
  look(from: number, to: number): void
}

/**
 * Shows a looker the ranges of `items` that hold the stretches in the cells `ring` cells away from `home`. A row of
 * cells is one range, as items are sorted by cell.
 */
function showRing(
  { columns, rows, starts }: StitchField,
  [home, ring]: readonly [number, number],
  looker: Looker,
) {
  const column = home % columns
  const row = (home - column) / columns
  const left = Math.max(0, column - ring)
  const right = Math.min(columns - 1, column + ring)
  const last = Math.min(rows - 1, row + ring)
  for (let y = Math.max(0, row - ring); y <= last; y++) {
    const at = y * columns
    if (y === row - ring || y === row + ring) {
      looker.look(starts[at + left]!, starts[at + right + 1]!)
      continue
    }
    if (column - ring >= 0) looker.look(starts[at + left]!, starts[at + left + 1]!)
    if (column + ring < columns) looker.look(starts[at + right]!, starts[at + right + 1]!)
  }
}

/** Keeps the distance to the nearest stretch seen. */
class Nearest implements Looker {
  distance = Number.POSITIVE_INFINITY
  readonly #field: StitchField
  readonly #p: Point
  readonly #metric: Metric

  constructor(field: StitchField, p: Point, metric: Metric) {
    this.#field = field
    this.#p = p
    this.#metric = metric
  }

  look(from: number, to: number): void {
    if (from === to) return
    const { items, stretches } = this.#field
    let nearest = this.distance
    for (let k = from; k < to; k++) {
      const away = this.#metric.distance(this.#p, stretches, items[k]!)
      if (away < nearest) nearest = away
    }
    this.distance = nearest
  }
}

/** How a distance to stitching is wanted. */
export interface Wanted {
  readonly metric: Metric
  /** A place nearer to stitching than this is of no use: any distance below it will do then, mm. */
  readonly least?: number
}

/**
 * The exact distance from `p`, a point in the field's box, to the nearest stitching, mm; Infinity if there is none.
 * Looks at rings of cells round the point's own, from the first that can hold stitching to the last that can matter.
 */
export function distanceToStitching(field: StitchField, p: Point, { metric, least = 0 }: Wanted): number {
  const { cell, square } = field
  const home = cellAt(field, p)
  const first = Math.round(square[home]! / cell)
  if (first === Number.POSITIVE_INFINITY) return first
  const nearest = new Nearest(field, p, metric)
  for (let ring = first; (ring - 1) * cell < nearest.distance && nearest.distance >= least; ring++)
    showRing(field, [home, ring], nearest)
  return nearest.distance
}

/** A circle or a square about a point. */
export interface Around {
  readonly p: Point
  /** mm */
  readonly within: number
  readonly metric: Metric
}

/** The stretches that come within a distance of a point in the field's box, each once. */
export function stretchesWithin(field: StitchField, { p, within, metric }: Around): readonly number[] {
  const { cell, square, items, stretches, columns, rows } = field
  const home = cellAt(field, p)
  if (!(square[home]! <= within + cell)) return []
  const found = new Set<number>()
  const looker: Looker = {
    look(from, to) {
      for (let k = from; k < to; k++) {
        if (metric.distance(p, stretches, items[k]!) <= within) found.add(items[k]!)
      }
    },
  }
  const last = Math.min(within / cell + 1, Math.max(columns, rows))
  for (let ring = Math.round(square[home]! / cell); ring <= last; ring++)
    showRing(field, [home, ring], looker)
  return [...found]
}

/** Distance between centres of cells for a metric. */
export const coarseDistances = (field: StitchField, metric: Metric): Float32Array =>
  metric === ROUND ? field.round : field.square
