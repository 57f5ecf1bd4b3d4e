import type { Point } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import type { Paper } from './paper.ts'

/** How a drawing is cut into sheets. Neighbouring windows share a strip as wide as the overlap. */
export interface Tiling {
  readonly sheet: Paper
  /** Blank border of each sheet, mm. */
  readonly margin: number
  readonly overlap: number
  readonly columns: number
  readonly rows: number
  /** Top left corner of the first window, in the drawing's mm. */
  readonly start: Point
}

/** The place of a sheet, from 0. */
export interface Place {
  readonly row: number
  readonly column: number
}

/** The size of what a sheet shows, mm. */
export const windowOf = (t: Pick<Tiling, 'sheet' | 'margin'>): Paper => ({
  width: t.sheet.width - 2 * t.margin,
  height: t.sheet.height - 2 * t.margin,
})

/** The fewest sheets that cover `box`, centred on it. */
export function tilingFor(box: Box, layout: Pick<Tiling, 'sheet' | 'margin' | 'overlap'>): Tiling {
  const window = windowOf(layout)
  const [columns, startX] = along([box.minX, box.maxX], window.width, layout.overlap)
  const [rows, startY] = along([box.minY, box.maxY], window.height, layout.overlap)
  return { ...layout, columns, rows, start: [startX, startY] }
}

/** How many windows cover a stretch, and where the first begins. */
function along([min, max]: readonly [number, number], window: number, overlap: number): [number, number] {
  const count = Math.max(1, Math.ceil((max - min - overlap) / (window - overlap) - 1e-9))
  const covered = count * (window - overlap) + overlap
  return [count, (min + max - covered) / 2]
}

/** Steps in which a tiling is moved to either side of the middle. */
const STEPS = 4

/** The same tiling moved about as far as it still covers `box`, the centred one first and those near it before others. */
export function movedTilings(tiling: Tiling, box: Box): Tiling[] {
  const { width, height } = windowOf(tiling)
  const slack = (count: number, window: number, size: number) =>
    Math.max(0, count * (window - tiling.overlap) + tiling.overlap - size)
  const across = slack(tiling.columns, width, box.maxX - box.minX)
  const down = slack(tiling.rows, height, box.maxY - box.minY)
  const steps = Array.from({ length: 2 * STEPS + 1 }, (_, i) => (i - STEPS) / (2 * STEPS))
  const moves = steps.flatMap((x) => steps.map((y): Point => [x, y]))
  moves.sort((a, b) => Math.hypot(...a) - Math.hypot(...b))
  return moves.map(([x, y]) => ({
    ...tiling,
    start: [tiling.start[0] + x * across, tiling.start[1] + y * down],
  }))
}

/** Which of `count` own parts, one after the other, a place lies on that is `offset` mm from where the first begins. */
export function indexAlong(
  offset: number,
  { window, overlap, count }: { window: number; overlap: number; count: number },
): number {
  const index = Math.floor((offset - overlap / 2) / (window - overlap))
  return Math.min(count - 1, Math.max(0, index))
}

/** What the sheet shows, in the drawing's mm. */
export function showsOf(tiling: Tiling, { row, column }: Place): Box {
  const { width, height } = windowOf(tiling)
  const minX = tiling.start[0] + column * (width - tiling.overlap)
  const minY = tiling.start[1] + row * (height - tiling.overlap)
  return { minX, minY, maxX: minX + width, maxY: minY + height }
}

/** The part that is this sheet's own: up to the middle of each overlap. The own parts share out the whole drawing. */
export function ownOf(tiling: Tiling, place: Place): Box {
  const shows = showsOf(tiling, place)
  const half = tiling.overlap / 2
  return {
    minX: shows.minX + (place.column > 0 ? half : 0),
    minY: shows.minY + (place.row > 0 ? half : 0),
    maxX: shows.maxX - (place.column < tiling.columns - 1 ? half : 0),
    maxY: shows.maxY - (place.row < tiling.rows - 1 ? half : 0),
  }
}

/** Rows are letters (A to Z, AA, AB, ...), columns numbers from 1: "B3". */
export function sheetName({ row, column }: Place): string {
  let letters = ''
  for (let n = row + 1; n > 0; n = Math.floor((n - 1) / 26))
    letters = String.fromCharCode(65 + ((n - 1) % 26)) + letters
  return `${letters}${column + 1}`
}

/** All places, row by row. */
export const placesOf = ({ rows, columns }: Tiling): Place[] =>
  Array.from({ length: rows * columns }, (_, i) => ({ row: Math.floor(i / columns), column: i % columns }))

/**
 * Where register marks lie, in the drawing's mm: on the middle lines of the overlaps, at their crossings and halfway
 * between, so that each edge that two sheets share has three.
 */
export function registerMarks(tiling: Tiling): Point[] {
  const { width, height } = windowOf(tiling)
  const lines = (start: number, step: number, count: number) =>
    Array.from({ length: count + 1 }, (_, i) => start + tiling.overlap / 2 + i * step)
  const xs = lines(tiling.start[0], width - tiling.overlap, tiling.columns)
  const ys = lines(tiling.start[1], height - tiling.overlap, tiling.rows)
  const inner = (values: readonly number[], v: number) => v !== values[0] && v !== values.at(-1)
  const halfway = (values: readonly number[]) => values.slice(1).map((v, i) => (v + values[i]!) / 2)
  const crossings = xs.flatMap((x) =>
    ys.filter((y) => inner(xs, x) || inner(ys, y)).map((y): Point => [x, y]),
  )
  const upright = xs.filter((x) => inner(xs, x)).flatMap((x) => halfway(ys).map((y): Point => [x, y]))
  const level = ys.filter((y) => inner(ys, y)).flatMap((y) => halfway(xs).map((x): Point => [x, y]))
  return [...crossings, ...upright, ...level]
}
