import { compose, scaling, translation } from '../src/geometry/affine.ts'
import type { Point } from '../src/geometry/point.ts'
import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif, type Strip } from '../src/motif/contract.ts'
import { type Random, seededRandom } from '../src/motif/random.ts'
import { smoothPath } from '../src/motif/smooth-path.ts'
import { type Cell, type Grid, growTree, walkPast } from '../src/motif/tree-walk.ts'
import { wander } from '../src/motif/wander.ts'

const rowsFor = (width: number, spacing: number): number => Math.max(1, Math.round((width / spacing - 1) / 2))
const columnsFor = (width: number, spacing: number): number => Math.max(2, Math.round(width / spacing / 2))

/** Where the line crosses the strip, in parts of its length: not at an end, where it would stand beside its mirror image. */
const CROSSING = [0.3, 0.7] as const

/**
 * The walk on a strip's fine grid, from its lower left to its lower right, past trees that stand on the lower edge; or, if
 * it crosses, past trees on that edge, up, and past trees that hang from the upper edge to the upper right.
 */
function walkThrough(grid: Grid, crosses: boolean, random: Random): Cell[] {
  if (!crosses) return walkPast(grid, growTree(grid, random, 'many'))
  const standing = Math.max(1, Math.round(random.between(...CROSSING) * grid.columns))
  const [before, after] = [
    { ...grid, columns: standing },
    { ...grid, columns: grid.columns - standing },
  ]
  const [way, top] = [2 * standing, 2 * grid.rows]
  const up = Array.from({ length: top + 1 }, (_, r): Cell => [way, r])
  const hanging = walkPast(after, growTree(after, random, 'many'))
  return [
    ...walkPast(before, growTree(before, random, 'many')),
    ...up,
    ...hanging.map(([c, r]): Cell => [way + 1 + c, top - r]),
  ]
}

/** From the inner edge through the strip, and up to the outer edge if that is asked for. */
function drawUpright(strip: Strip, spacing: number): Stroke {
  const grid: Grid = {
    columns: strip.repeats * columnsFor(strip.width, spacing),
    rows: rowsFor(strip.width, spacing),
  }
  const random = seededRandom(strip.seed)
  const crosses = strip.from !== strip.to
  const cells = walkThrough(grid, crosses, random)
  const [columns, rows] = [2 * grid.columns + (crosses ? 1 : 0), 2 * grid.rows + 1]
  const mesh: Point = [strip.length / columns, strip.width / rows]
  const points = wander(cells, [columns, rows], random).map(([u, v]): Point => [u * mesh[0], v * mesh[1]])
  return smoothPath(
    points,
    { at: [0, 0], along: [1, 0] },
    { at: [strip.length, crosses ? strip.width : 0], along: [1, 0] },
  )
}

export default defineMotif({
  title: 'meander',
  source: 'a walk round a random spanning tree, smoothed by a cubic B-spline',
  params: {
    spacing: { kind: 'length', label: 'Distance between lines', default: { widths: 0.11 }, min: 3, max: 60 },
  },
  closeness: 'spacing',
  suits: { min: 40, max: 400 },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, { spacing }) => 2 * columnsFor(width, spacing) * Math.min(spacing, width / 3),
  draw: (strip, { spacing }) => {
    const upright = drawUpright(strip, Math.min(spacing, strip.width / 3))
    const flip = compose(scaling(1, -1), translation(0, strip.width))
    const stroke = strip.from === 'inner' ? upright : transformStroke(upright, flip)
    return {
      stroke,
      touches: [
        { edge: strip.from, after: 0 },
        { edge: strip.to, after: stroke.segments.length },
      ],
    }
  },
})
