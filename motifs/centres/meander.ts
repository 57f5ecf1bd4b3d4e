import { applyAffine, rotation } from '../../src/geometry/affine.ts'
import { type Point, subtract } from '../../src/geometry/point.ts'
import { boundsOf, transformStroke } from '../../src/geometry/stroke.ts'
import { defineCentre } from '../../src/motif/centre-contract.ts'
import { centreGrid, fineCell } from '../../src/motif/centre-grid.ts'
import { OPEN, openTurns } from '../../src/motif/open-turns.ts'
import { outlineGrid } from '../../src/motif/outline-grid.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { smoothPath } from '../../src/motif/smooth-path.ts'
import { growTree, walkRound } from '../../src/motif/tree-walk.ts'
import { wander } from '../../src/motif/wander.ts'

export default defineCentre({
  title: 'Meander',
  source: 'the closed walk round a random spanning tree, smoothed by a cubic B-spline',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: 12, min: 4, max: 80 },
  },
  closeness: 'spacing',
  suitsFrom: 60,
  ports: 'middle',
  joints: 'smooth',
  fill: (area, { spacing }) => {
    const grid = centreGrid(area, Math.min(spacing, area.width / 6, area.height / 4))
    const [du, dv] = fineCell(area, grid)
    const random = seededRandom(area.seed)
    const cells = walkRound(grid, growTree(grid, random, 'one'))
    const walk = wander(cells, [2 * grid.columns, 2 * grid.rows], random)
    const port: Point = [area.width / 2, 0]
    const points = openTurns(
      walk.map(([u, v]): Point => [u * du, v * dv]),
      OPEN * Math.min(du, dv),
    )
    const stroke = smoothPath(points, { at: port, along: [0, 1] }, { at: port, along: [0, -1] })
    return { stroke, touches: [0, stroke.segments.length] }
  },
  fillOutline: ({ outline, seed }, { spacing }) => {
    const along = subtract(outline[1]!, outline[0]!)
    const angle = Math.atan2(along[1], along[0])
    const flat = outline.map((p) => applyAffine(rotation(-angle), p))
    const { minY, maxY } = boundsOf(flat)
    const fine = Math.min(spacing, (maxY - minY) / 8)
    const { grid, place, rim } = outlineGrid(flat, fine)
    const random = seededRandom(seed)
    const cells = walkRound(grid, growTree(grid, random, 'one'))
    const walk = wander(cells, (p) => Math.min(1, Math.max(0, rim(p) / 2)), random)
    const port = place([grid.columns, 0])
    const stroke = smoothPath(
      openTurns(walk.map(place), OPEN * fine),
      { at: port, along: [0, 1] },
      { at: port, along: [0, -1] },
    )
    return [transformStroke(stroke, rotation(angle))]
  },
})
