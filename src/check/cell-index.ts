import type { Point } from '../geometry/point.ts'
import type { Box } from '../geometry/stroke.ts'
import type { Grid } from './distance-transform.ts'
import type { Stretches } from './polyline.ts'

/** A grid of square cells laid over a box. */
export interface CellGrid extends Grid {
  readonly box: Box
  /** Side of a cell, mm. */
  readonly cell: number
}

/** Stretches sorted by the cells that they pass through, so that those near a point are found at once. */
export interface CellIndex {
  /** The stretches that pass through cell `i` are items[starts[i]] to items[starts[i + 1] - 1]. */
  readonly starts: Int32Array
  readonly items: Int32Array
}

/** A grid over a box, of cells of a size but not many more than `most`. */
export function gridOver(
  box: Box,
  { cell, most }: { readonly cell: number; readonly most: number },
): CellGrid {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY]
  const side = Math.max(cell, Math.sqrt((width * height) / most), Math.max(width, height) / most)
  const count = (length: number) => Math.max(1, Math.ceil(length / side))
  return { box, cell: side, columns: count(width), rows: count(height) }
}

/** One pass over all stretches, that writes down each cell that they pass through; then each stretch is put in its place. */
export function sortIntoCells(stretches: Stretches, grid: CellGrid): CellIndex {
  const starts = new Int32Array(grid.columns * grid.rows + 1)
  const passes = new Passes(2 * stretches.count)
  eachCell(stretches, grid, (cell, stretch) => {
    starts[cell + 1]!++
    passes.add(cell, stretch)
  })
  for (let i = 1; i < starts.length; i++) starts[i]! += starts[i - 1]!
  const items = new Int32Array(passes.count)
  const next = starts.slice()
  const { cells, stretches: passing } = passes
  for (let i = 0; i < items.length; i++) items[next[cells[i]!]!++] = passing[i]!
  return { starts, items }
}

/** Pairs of a cell and a stretch that passes through it, in arrays that grow. */
class Passes {
  count = 0
  cells: Int32Array
  stretches: Int32Array

  /** @param room  how many are expected */
  constructor(room: number) {
    this.cells = new Int32Array(room)
    this.stretches = new Int32Array(room)
  }

  add(cell: number, stretch: number): void {
    if (this.count === this.cells.length) {
      this.cells = grown(this.cells)
      this.stretches = grown(this.stretches)
    }
    this.cells[this.count] = cell
    this.stretches[this.count++] = stretch
  }
}

function grown(array: Int32Array): Int32Array {
  const larger = new Int32Array(2 * array.length + 16)
  larger.set(array)
  return larger
}

/** Calls `visit` with every cell that a stretch touches, row by row. Plain numbers throughout: there are many stretches. */
function eachCell(
  { ax, ay, bx, by, count }: Stretches,
  { columns, rows, box, cell }: CellGrid,
  visit: (cell: number, stretch: number) => void,
): void {
  for (let i = 0; i < count; i++) {
    const x0 = (ax[i]! - box.minX) / cell
    const y0 = (ay[i]! - box.minY) / cell
    const x1 = (bx[i]! - box.minX) / cell
    const y1 = (by[i]! - box.minY) / cell
    const isLevel = Math.floor(y0) === Math.floor(y1)
    const first = Math.max(0, Math.floor(Math.min(y0, y1)))
    const last = Math.min(rows - 1, Math.floor(Math.max(y0, y1)))
    const slope = (x1 - x0) / (y1 - y0)
    for (let row = first; row <= last; row++) {
      // How far the stretch reaches from left to right inside the row, in cells.
      const a = isLevel ? x0 : x0 + slope * (clampTo(row, y0, y1) - y0)
      const b = isLevel ? x1 : x0 + slope * (clampTo(row + 1, y0, y1) - y0)
      const end = Math.min(columns - 1, Math.floor(Math.max(a, b)))
      for (let column = Math.max(0, Math.floor(Math.min(a, b))); column <= end; column++)
        visit(row * columns + column, i)
    }
  }
}

/** The number between `a` and `b`, in either order, that is nearest to `value`. */
const clampTo = (value: number, a: number, b: number): number =>
  a < b ? Math.min(b, Math.max(a, value)) : Math.min(a, Math.max(b, value))

/** The cell that `p` lies in; the nearest one for a point outside. */
export function cellAt({ columns, rows, box, cell }: CellGrid, [x, y]: Point): number {
  const column = Math.min(columns - 1, Math.max(0, Math.floor((x - box.minX) / cell)))
  const row = Math.min(rows - 1, Math.max(0, Math.floor((y - box.minY) / cell)))
  return row * columns + column
}
