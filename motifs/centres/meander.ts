import type { Point } from '../../src/geometry/point.ts'
import { boundsOf } from '../../src/geometry/stroke.ts'
import { defineCentre } from '../../src/motif/centre-contract.ts'
import { centreGrid, fineCell } from '../../src/motif/centre-grid.ts'
import { outlineGrid } from '../../src/motif/outline-grid.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { smoothPath } from '../../src/motif/smooth-path.ts'
import { growTree, walkRound } from '../../src/motif/tree-walk.ts'
import { wander } from '../../src/motif/wander.ts'

export default defineCentre({
  title: 'meander',
  source: 'the closed walk round a random spanning tree, smoothed by a cubic B-spline',
  params: {
    spacing: { kind: 'length', label: 'Distance between lines', default: 12, min: 4, max: 80 },
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
    const points = walk.map(([u, v]): Point => [u * du, v * dv])
    const stroke = smoothPath(points, { at: port, along: [0, 1] }, { at: port, along: [0, -1] })
    return { stroke, touches: [0, stroke.segments.length] }
  },
  fillOutline: ({ outline, seed }, { spacing }) => {
    const { minY, maxY } = boundsOf(outline)
    const { grid, place, rim } = outlineGrid(outline, Math.min(spacing, (maxY - minY) / 8))
    const random = seededRandom(seed)
    const cells = walkRound(grid, growTree(grid, random, 'one'))
    const walk = wander(cells, (p) => Math.min(1, Math.max(0, rim(p) / 2)), random)
    const port = place([grid.columns, 0])
    return [smoothPath(walk.map(place), { at: port, along: [0, 1] }, { at: port, along: [0, -1] })]
  },
})
