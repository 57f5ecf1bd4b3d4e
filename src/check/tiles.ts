import type { Grid } from './distance-transform.ts'

/** The greatest value in each tile of a grid: where a tile holds nothing of use, all its cells are passed over at once. */
export interface Tiles {
  /** Tile by tile, row by row. */
  readonly tops: Float32Array
  /** How many tiles there are in a row. */
  readonly across: number
}

/** A tile has so many cells across and down, as a power of two. */
const POWER = 3

export function tilesOf(values: Float32Array, { columns, rows }: Grid): Tiles {
  const across = ((columns - 1) >> POWER) + 1
  const tops = new Float32Array(across * (((rows - 1) >> POWER) + 1)).fill(Number.NEGATIVE_INFINITY)
  for (let row = 0, i = 0; row < rows; row++) {
    const first = (row >> POWER) * across
    for (let column = 0; column < columns; column++, i++) {
      const tile = first + (column >> POWER)
      if (values[i]! > tops[tile]!) tops[tile] = values[i]!
    }
  }
  return { tops, across }
}

/** The column of the first cell of a row, from `column` on, whose tile holds more than `least`; `end` if there is none before it. */
export function nextAbove(
  { tops, across }: Tiles,
  { row, column, end }: { readonly row: number; readonly column: number; readonly end: number },
  least: number,
): number {
  const first = (row >> POWER) * across
  let at = column
  while (at < end && !(tops[first + (at >> POWER)]! > least)) at = ((at >> POWER) + 1) << POWER
  return Math.min(at, end)
}
