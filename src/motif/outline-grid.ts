import { lerp, type Point } from '../geometry/point.ts'
import { boundsOf } from '../geometry/stroke.ts'
import type { Cell, Grid } from './tree-walk.ts'

/** A grid of coarse cells that fills an outline, two by two fine cells each. */
export interface OutlineGrid {
  readonly grid: Grid
  /** Where a place in fine cells lies, mm: every row is stretched to the outline's width. */
  place(cells: Point): Point
  /** How far a place lies from the grid's rim, in fine cells. */
  rim(cells: Point): number
}

/**
 * Rows of cells as wide as an outline is there. The grid is upright; each row has the number of cells that comes closest
 * to their width, even or odd like the widest, so that cells of neighbouring rows stand over each other.
 *
 * @param outline  convex, its top side level, mm
 * @param spacing  wanted width and height of a fine cell, mm
 */
export function outlineGrid(outline: readonly Point[], spacing: number): OutlineGrid {
  const { minX, minY, maxX, maxY } = boundsOf(outline)
  const columns = Math.max(1, Math.round((maxX - minX) / spacing / 2))
  const rows = Math.max(1, Math.round((maxY - minY) / spacing / 2))
  const [du, dv] = [(maxX - minX) / (2 * columns), (maxY - minY) / (2 * rows)]
  const chord = (v: number) => chordAt(outline, minY + v * dv)
  const counts = Array.from({ length: rows }, (_, row) => {
    const [left, right] = chord(2 * row + 1)
    return nearestAlike((right - left) / (2 * du), columns)
  })
  const countAt = (row: number) => counts[Math.min(rows - 1, Math.max(0, row))]!
  // In the middle of each fine row the outermost cells reach to the outline; between them it changes evenly.
  const stretches = Array.from({ length: 2 * rows }, (_, fine) => {
    const [left, right] = chord(fine + 0.5)
    return (right - left) / (2 * countAt(Math.floor(fine / 2)))
  })
  const stretchAt = (v: number) => valueAt(stretches, v - 0.5)
  return {
    grid: {
      columns,
      rows,
      has: ([column, row]: Cell) => 2 * Math.abs(column + 0.5 - columns / 2) < countAt(row),
    },
    place: ([u, v]) => {
      const [left, right] = chord(Math.min(2 * rows, Math.max(0, v)))
      return [(left + right) / 2 + (u - columns) * stretchAt(v), minY + v * dv]
    },
    rim: ([u, v]) => {
      const row = Math.floor(v / 2)
      const narrowest = Math.min(countAt(row - 1), countAt(row), countAt(row + 1))
      return Math.min(v, 2 * rows - v, narrowest - Math.abs(u - columns))
    },
  }
}

/** The whole number nearest to a count that is odd or even as another is; 2 or 1 at least. */
function nearestAlike(count: number, other: number): number {
  const odd = other % 2
  return Math.max(2 - odd, Math.min(other, 2 * Math.round((count - odd) / 2) + odd))
}

/** A list's value between its places, even between neighbours; at its ends as the last. */
function valueAt(list: readonly number[], at: number): number {
  const place = Math.min(list.length - 1, Math.max(0, at))
  const below = Math.min(list.length - 2, Math.floor(place))
  if (below < 0) return list[0]!
  return list[below]! + (list[below + 1]! - list[below]!) * (place - below)
}

/** The left and the right end of an outline's chord at a height. */
function chordAt(outline: readonly Point[], y: number): readonly [left: number, right: number] {
  const xs = outline.flatMap((a, i) => {
    const b = outline[(i + 1) % outline.length]!
    const [low, high] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])]
    if (y < low - EVEN || y > high + EVEN) return []
    if (high - low < EVEN) return [a[0], b[0]]
    return [lerp(a, b, Math.min(1, Math.max(0, (y - a[1]) / (b[1] - a[1]))))[0]]
  })
  return [Math.min(...xs), Math.max(...xs)]
}

/** Heights that differ by less are the same, mm. */
const EVEN = 1e-6
