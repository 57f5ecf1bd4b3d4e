import { distance, lerp } from '../../geometry/point.ts'
import type { BoxedLine } from './cut-line.ts'
import { indexAlong, type Tiling, windowOf } from './tiling.ts'

/** Distance between samples of the line, mm. */
const SAMPLE = 4

/** Cells of the sampling grid in a row: more than any quilt needs. */
const GRID = 1 << 20

/** Places on a line about 4 mm apart. */
export interface LineSamples {
  readonly xs: Float64Array
  readonly ys: Float64Array
}

/** Samples of lines: one place in each square of 4 mm that a line passes through. */
export function sampleLine(lines: readonly BoxedLine[]): LineSamples {
  const seen = new Set<number>()
  const [xs, ys]: [number[], number[]] = [[], []]
  for (const { points } of lines)
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1]!, points[i]!]
      const count = Math.max(1, Math.ceil(distance(a, b) / SAMPLE))
      for (let k = 0; k <= count; k++) {
        const [x, y] = lerp(a, b, k / count)
        const cell = Math.round(x / SAMPLE) * GRID + Math.round(y / SAMPLE)
        if (seen.has(cell)) continue
        seen.add(cell)
        xs.push(x)
        ys.push(y)
      }
    }
  return { xs: Float64Array.from(xs), ys: Float64Array.from(ys) }
}

/** Of several tilings of one size the first that needs the fewest sheets, as far as samples of the line tell. */
export function fewestSheets({ xs, ys }: LineSamples, tilings: readonly Tiling[]): Tiling {
  const { columns, rows, sheet, margin, overlap } = tilings[0]!
  const window = windowOf({ sheet, margin })
  const columnsFrom = remembered((start) =>
    indicesAlong(xs, start, { window: window.width, overlap, count: columns }),
  )
  const rowsFrom = remembered((start) =>
    indicesAlong(ys, start, { window: window.height, overlap, count: rows }),
  )
  let [best, least] = [tilings[0]!, Infinity]
  for (const tiling of tilings) {
    const [across, down] = [columnsFrom(tiling.start[0]), rowsFrom(tiling.start[1])]
    const used = new Uint8Array(columns * rows)
    for (let i = 0; i < across.length; i++) used[down[i]! * columns + across[i]!] = 1
    const count = used.reduce((sum, one) => sum + one, 0)
    if (count < least) [best, least] = [tiling, count]
  }
  return best
}

/** The index along one axis of every sample. */
function indicesAlong(
  values: Float64Array,
  start: number,
  parts: Parameters<typeof indexAlong>[1],
): Int32Array {
  const indices = new Int32Array(values.length)
  for (let i = 0; i < values.length; i++) indices[i] = indexAlong(values[i]! - start, parts)
  return indices
}

/** The function, each of its answers reckoned once. */
function remembered(reckon: (start: number) => Int32Array): (start: number) => Int32Array {
  const known = new Map<number, Int32Array>()
  return (start) => {
    const found = known.get(start) ?? reckon(start)
    known.set(start, found)
    return found
  }
}
