import type { Point } from '../../src/geometry/point.ts'
import { defineCentre } from '../../src/motif/centre-contract.ts'
import { centreGrid, fineCell } from '../../src/motif/centre-grid.ts'
import { outlineRails } from '../../src/motif/outline-rails.ts'
import { roundedPath } from '../../src/motif/rounded-path.ts'
import { spiralTree } from '../../src/motif/spiral-tree.ts'
import { walkRound } from '../../src/motif/tree-walk.ts'

export default defineCentre({
  title: 'Echo rails',
  source: 'rails parallel to the sides: a rectangular spiral in and out again between its own lines',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: 15, min: 4, max: 80 },
  },
  closeness: 'spacing',
  suitsFrom: 60,
  ports: 'middle',
  joints: 'cusped',
  fill: (area, { spacing }) => {
    const grid = centreGrid(area, Math.min(spacing, area.width / 6, area.height / 4))
    const [du, dv] = fineCell(area, grid)
    const cells = walkRound(grid, spiralTree(grid))
    const port: Point = [area.width / 2, 0]
    const rails = cells.map(([c, r]): Point => [(c + 0.5) * du, (r + 0.5) * dv])
    const stroke = roundedPath([port, ...rails, port], Math.min(du, dv) / 2)
    return { stroke, touches: [0, stroke.segments.length] }
  },
  fillOutline: ({ outline }, { spacing }) => [roundedPath(outlineRails(outline, spacing), spacing / 2)],
})
