import type { Point } from '../geometry/point.ts'
import type { Box } from '../geometry/stroke.ts'
import type { Grid } from './distance-transform.ts'
import type { Stretches } from './polyline.ts'

/** A grid of square cells laid over a box. */
export interface Frame extends Grid {
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
export function frameOver(box: Box, { cell, most }: { readonly cell: number; readonly most: number }): Frame {
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY]
  const side = Math.max(cell, Math.sqrt((width * height) / most), Math.max(width, height) / most)
  const count = (length: number) => Math.max(1, Math.ceil(length / side))
  return { box, cell: side, columns: count(width), rows: count(height) }
}

/** Two passes over all stretches: count how many pass through each cell, then write them down in its place. */
export function sortIntoCells(stretches: Stretches, frame: Frame): CellIndex {
  const starts = new Int32Array(frame.columns * frame.rows + 1)
  eachCell(stretches, frame, (cell) => {
    starts[cell + 1]!++
  })
  for (let i = 1; i < starts.length; i++) starts[i]! += starts[i - 1]!
  const items = new Int32Array(starts.at(-1)!)
  const next = starts.slice()
  eachCell(stretches, frame, (cell, stretch) => {
    items[next[cell]!++] = stretch
  })
  return { starts, items }
}

/** Calls `visit` with every cell that a stretch touches, row by row. */
function eachCell(
  { ax, ay, bx, by, count }: Stretches,
  { columns, rows, box, cell }: Frame,
  visit: (cell: number, stretch: number) => void,
): void {
  for (let i = 0; i < count; i++) {
    const [x0, y0] = [(ax[i]! - box.minX) / cell, (ay[i]! - box.minY) / cell]
    const [x1, y1] = [(bx[i]! - box.minX) / cell, (by[i]! - box.minY) / cell]
    const first = Math.max(0, Math.floor(Math.min(y0, y1)))
    const last = Math.min(rows - 1, Math.floor(Math.max(y0, y1)))
    for (let row = first; row <= last; row++) {
      const [from, to] = spanInRow([x0, y0, x1, y1], row)
      const end = Math.min(columns - 1, Math.floor(to))
      for (let column = Math.max(0, Math.floor(from)); column <= end; column++)
        visit(row * columns + column, i)
    }
  }
}

/** How far a stretch reaches from left to right inside a row, in cells. */
function spanInRow(ends: readonly [number, number, number, number], row: number): readonly [number, number] {
  const [x0, y0, x1, y1] = ends
  if (Math.floor(y0) === Math.floor(y1)) return x0 < x1 ? [x0, x1] : [x1, x0]
  const [a, b] = [acrossAt(ends, row), acrossAt(ends, row + 1)]
  return a < b ? [a, b] : [b, a]
}

/** Where a stretch is at height `y`; at its end where it does not reach that far. */
function acrossAt([x0, y0, x1, y1]: readonly [number, number, number, number], y: number): number {
  const t = (y - y0) / (y1 - y0)
  return x0 + (x1 - x0) * Math.min(1, Math.max(0, t))
}

/** The cell that `p` lies in; the nearest one for a point outside. */
export function cellAt({ columns, rows, box, cell }: Frame, [x, y]: Point): number {
  const column = Math.min(columns - 1, Math.max(0, Math.floor((x - box.minX) / cell)))
  const row = Math.min(rows - 1, Math.max(0, Math.floor((y - box.minY) / cell)))
  return row * columns + column
}
