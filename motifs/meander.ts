import { compose, scaling, translation } from '../src/geometry/affine.ts'
import type { Point } from '../src/geometry/point.ts'
import { type Stroke, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif, type Strip } from '../src/motif/contract.ts'
import { seededRandom } from '../src/motif/random.ts'
import { smoothPath } from '../src/motif/smooth-path.ts'
import { type Grid, growTree, walkPast } from '../src/motif/tree-walk.ts'
import { wander } from '../src/motif/wander.ts'

const rowsFor = (width: number, spacing: number): number => Math.max(1, Math.round((width / spacing - 1) / 2))
const columnsFor = (width: number, spacing: number): number => Math.max(2, Math.round(width / spacing / 2))

/** From the inner edge, along it and round the trees that stand on it; up the end if the outer edge is asked for. */
function drawUpright(strip: Strip, spacing: number): Stroke {
  const grid: Grid = {
    columns: strip.repeats * columnsFor(strip.width, spacing),
    rows: rowsFor(strip.width, spacing),
  }
  const random = seededRandom(strip.seed)
  const cells = walkPast(grid, growTree(grid, random, 'many'))
  const [columns, rows] = [2 * grid.columns, 2 * grid.rows + 1]
  const crosses = strip.from !== strip.to
  if (crosses) for (let r = 0; r < rows; r++) cells.push([columns, r])
  const across = strip.length / (columns + (crosses ? 1 : 0))
  const mesh: Point = [across, strip.width / rows]
  const walk = wander(cells, [crosses ? columns + 1 : columns, rows], random)
  const points = walk.map(([u, v]): Point => [u * mesh[0], v * mesh[1]])
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
