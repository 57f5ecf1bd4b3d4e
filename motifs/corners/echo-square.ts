import { scaling } from '../../src/geometry/affine.ts'
import type { Point } from '../../src/geometry/point.ts'
import { transformStroke } from '../../src/geometry/stroke.ts'
import { defineCorner } from '../../src/motif/corner-contract.ts'
import { alongOutline, inUnit, wayRound } from '../../src/motif/patch-outline.ts'
import { roundedPath } from '../../src/motif/rounded-path.ts'
import { spiralTree } from '../../src/motif/spiral-tree.ts'
import { type Cell, walkRound } from '../../src/motif/tree-walk.ts'

/** A point turned by quarter turns about the unit square's middle. */
function turned([u, v]: Point, quarters: number): Point {
  let p: Point = [u, v]
  for (let i = 0; i < quarters; i++) p = [1 - p[1], p[0]]
  return p
}

/** The closed walk begun at another of its fine cells, the one left of the place `t` along the first side. */
function begunAt(cells: readonly Cell[], columns: number, t: number): Cell[] {
  const left = 2 * Math.min(columns - 1, Math.max(0, Math.round(t * columns - 0.5)))
  const at = cells.findIndex(([c, r]) => c === left && r === 0)
  const next = cells[(at + 1) % cells.length]!
  const forward = [...cells.slice(at), ...cells.slice(0, at)]
  if (next[0] !== left + 1 || next[1] !== 0) return forward
  return [forward[0]!, ...forward.slice(1).reverse()]
}

/** The sides of the unit square along which the line leaves, the one that it comes in on first: beside them it needs a lane. */
interface Lanes {
  readonly first: boolean
  readonly right: boolean
  readonly left: boolean
  readonly last: boolean
}

const NO_LANES: Lanes = { first: false, right: false, left: false, last: false }

/** The way out along the sides, in sides: from the place `t` along the first side, to the right or back. */
function lanesOf({ t, length, back }: { t: number; length: number; back: boolean }): Lanes {
  // To the corner that the way comes to first.
  const corner = back ? t : 1 - t
  const turns = length > corner + 1e-6
  return {
    first: true,
    right: turns && !back,
    left: turns && back,
    last: length > corner + 1 + 1e-6,
  }
}

/** The map from fine cells to the unit square, clear of its lanes. */
function frameOf(
  { first, right, left, last }: Lanes,
  { rim, lines }: { rim: number; lines: number },
): (cell: Point) => Point {
  const inset = (lane: boolean) => (lane ? rim : 0)
  const along = (1 - inset(left) - inset(right)) / (2 * lines)
  const across = (1 - inset(first) - inset(last)) / (2 * lines)
  return ([u, v]) => [inset(left) + u * along, inset(first) + v * across]
}

export default defineCorner({
  title: 'Echo square',
  source: 'squares within squares as one line: a square spiral in and out again between its own lines',
  params: {
    lines: { kind: 'count', label: 'Lines from the side to the middle', default: 4, min: 2, max: 10 },
  },
  suits: { min: 25, max: 250 },
  joints: 'cusped',
  draw: (patch, { lines }) => {
    const [entry, exit] = [wayRound(inUnit(patch, patch.entry)), wayRound(inUnit(patch, patch.exit))]
    const apart = (exit - entry + 4) % 4
    const away = apart > 1e-6 && apart < 4 - 1e-6
    const spacing = 0.5 / (lines + (away ? 1 : 0))
    const back = apart > 2
    const onCorner = entry - Math.floor(entry) < 1e-9
    const quarter = (Math.floor(entry) + (back && onCorner ? 3 : 0)) % 4
    const t = back && onCorner ? 1 : entry - Math.floor(entry)
    const grid = { columns: lines, rows: lines }
    const cells = begunAt(walkRound(grid, spiralTree(grid)), lines, t)
    if (back) cells.reverse()
    const way = { t, length: back ? 4 - apart : apart, back }
    const frame = frameOf(away ? lanesOf(way) : NO_LANES, { rim: spacing, lines })
    const inPatch = (cell: Point) => turned(frame(cell), quarter)
    const rails = cells.map(([c, r]) => inPatch([c + 0.5, r + 0.5]))
    const last = frame([cells.at(-1)![0] + 0.5, 0])
    const lane = away
      ? [turned([last[0], spacing / 2], quarter), ...alongOutline(entry, exit, spacing / 2).slice(1)]
      : []
    const points = [inUnit(patch, patch.entry), ...rails, ...lane, inUnit(patch, patch.exit)]
    return transformStroke(roundedPath(points, spacing / 2), scaling(patch.width, patch.height))
  },
})
