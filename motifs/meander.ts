import { compose, scaling, translation } from '../src/geometry/affine.ts'
import type { Point } from '../src/geometry/point.ts'
import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { drawLeaning } from '../src/motif/bend.ts'
import { type Drawn, defineMotif, type MitreStrip, type Strip } from '../src/motif/contract.ts'
import { OPEN, openTurns } from '../src/motif/open-turns.ts'
import { type Random, seededRandom } from '../src/motif/random.ts'
import { smoothPath } from '../src/motif/smooth-path.ts'
import { SteppedRows } from '../src/motif/stepped-rows.ts'
import { type Cell, growTree, walkPast } from '../src/motif/tree-walk.ts'
import { wander } from '../src/motif/wander.ts'

const rowsFor = (width: number, spacing: number): number => Math.max(1, Math.round((width / spacing - 1) / 2))
const columnsFor = (width: number, spacing: number): number => Math.max(2, Math.round(width / spacing / 2))

/** Where the line crosses the strip, in parts of its length: not at an end, where it would stand beside its mirror image. */
const CROSSING = [0.3, 0.7] as const

/** A strip's fine grid: how many coarse cells lie in a row of trees, and how long a fine row is. */
interface Lattice {
  /** Coarse rows. */
  readonly rows: number
  /** Coarse cells in the row of trees about a height, in fine cells. */
  countAt(v: number): number
  readonly crosses: boolean
}

/** A walk through fine cells, and where each fine row ends. */
interface Walk {
  readonly cells: readonly Cell[]
  endOf(row: number): number
}

/**
 * The walk on a strip's fine grid, from its lower left to its lower right, past trees that stand on the lower edge; or, if
 * it crosses, past trees on that edge, up, and past trees that hang from the upper edge to the upper right.
 */
function walkThrough({ rows, countAt, crosses }: Lattice, random: Random): Walk {
  const trees = (counts: readonly number[]): Cell[] => {
    const grid = { rows, columns: Math.max(...counts), has: ([c, r]: Cell) => c < counts[r]! }
    return walkPast(grid, growTree(grid, random, 'many'))
  }
  const row = Array.from({ length: rows }, (_, r) => r)
  const placeOf = (fine: number) => Math.min(rows - 1, Math.max(0, Math.floor((fine - 1) / 2)))
  const upright = row.map((r) => countAt(2 * r + 2))
  if (!crosses) return { cells: trees(upright), endOf: (fine) => 2 * upright[placeOf(fine)]! }
  const [top, least] = [2 * rows, Math.min(...upright)]
  const standing = Math.max(1, Math.round(random.between(...CROSSING) * least))
  const hanging = row.map((r) => Math.max(1, countAt(top - 1 - 2 * r) - standing))
  const way = 2 * standing
  const up = Array.from({ length: top + 1 }, (_, r): Cell => [way, r])
  const before = trees(row.map(() => standing))
  const after = trees(hanging).map(([c, r]): Cell => [way + 1 + c, top - r])
  return { cells: [...before, ...up, ...after], endOf: (fine) => way + 1 + 2 * hanging[placeOf(top - fine)]! }
}

/** How many coarse cells there are along a strip and across, and how many fine ones. */
function cellsOf({ width, repeats, from, to }: Strip, spacing: number) {
  const crosses = from !== to
  const [columns, rows] = [repeats * columnsFor(width, spacing), rowsFor(width, spacing)]
  const fine: Point = [2 * columns + (crosses ? 1 : 0), 2 * rows + 1]
  return { crosses, columns, rows, fine }
}

/** From the edge v = 0 through the strip, and up to the other edge if that is asked for. */
function drawUpright(strip: Strip, spacing: number): Stroke {
  const { crosses, columns, rows, fine } = cellsOf(strip, spacing)
  const random = seededRandom(strip.seed)
  const { cells } = walkThrough({ rows, countAt: () => columns, crosses }, random)
  const mesh: Point = [strip.length / fine[0], strip.width / fine[1]]
  const points = wander(cells, fine, random).map(([u, v]): Point => [u * mesh[0], v * mesh[1]])
  return led(points, { end: [strip.length, crosses ? strip.width : 0], cell: Math.min(...mesh) })
}

/** The same up to a mitre: rows of trees end in steps beside it. Undefined if the strip is too short for that. */
function drawUprightToMitre(strip: MitreStrip, spacing: number): Stroke | undefined {
  const { crosses, rows, fine } = cellsOf(strip, spacing)
  const random = seededRandom(strip.seed)
  const stepped = new SteppedRows(strip, fine)
  const countAt = (v: number) => Math.round((stepped.lengthAt(v) - (crosses ? 1 : 0)) / 2)
  if (Math.min(countAt(0), countAt(fine[1])) < LEAST) return undefined
  const { cells, endOf } = walkThrough({ rows, countAt, crosses }, random)
  const { mesh } = stepped
  const points = wander(cells, (p) => stepped.room(p, fine[1]), random).map((p, i): Point => {
    const row = cells[i]![1]
    const [u, v] = stepped.reaching(p, { row, end: endOf(row) })
    return [u * mesh[0], v * mesh[1]]
  })
  const isOuter = strip.to === 'outer'
  const end: Point = [strip.length + (isOuter ? strip.skew * strip.width : 0), crosses ? strip.width : 0]
  return led(points, { end, cell: Math.min(...mesh) })
}

/** The least coarse cells in a row beside a mitre. */
const LEAST = 2

const led = (points: readonly Point[], { end, cell }: { end: Point; cell: number }): Stroke =>
  smoothPath(openTurns(points, OPEN * cell), { at: [0, 0], along: [1, 0] }, { at: end, along: [1, 0] })

/** A stroke begun on v = 0, with that edge where the strip begins. */
function drawnFrom({ from, to, width }: Strip, upright: Stroke): Drawn {
  const flip = compose(scaling(1, -1), translation(0, width))
  const stroke = from === 'inner' ? upright : transformStroke(upright, flip)
  return {
    stroke,
    touches: [
      { edge: from, after: 0 },
      { edge: to, after: stroke.segments.length },
    ],
  }
}

/** Lines at most so far apart that two lie in the strip. */
const spacingIn = (width: number, spacing: number): number => Math.min(spacing, width / 3)

const drawStraight = (strip: Strip, { spacing }: { readonly spacing: number }): Drawn =>
  drawnFrom(strip, drawUpright(strip, spacingIn(strip.width, spacing)))

export default defineMotif({
  title: 'Meander',
  source: 'a walk round a random spanning tree, smoothed by a cubic B-spline',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: { widths: 0.11 }, min: 3, max: 60 },
  },
  closeness: 'spacing',
  suits: { min: 40, max: 400 },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, { spacing }) => 2 * columnsFor(width, spacing) * spacingIn(width, spacing),
  draw: drawStraight,
  drawToMitre: (strip, values) => {
    const stroke = drawUprightToMitre(strip, spacingIn(strip.width, values.spacing))
    return stroke
      ? drawnFrom(strip, stroke)
      : drawLeaning(strip, (straight) => drawStraight(straight, values))
  },
})
