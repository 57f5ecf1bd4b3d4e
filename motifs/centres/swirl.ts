import type { Point } from '../../src/geometry/point.ts'
import { defineCentre, type Rectangle } from '../../src/motif/centre-contract.ts'
import { centreGrid, fineCell } from '../../src/motif/centre-grid.ts'
import type { Circle } from '../../src/motif/circle-columns.ts'
import { chainStroke, type Link, linkedSpirals } from '../../src/motif/linked-spirals.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { type Cell, type Grid, growTree, walkRound } from '../../src/motif/tree-walk.ts'

/** The share of two neighbours' room that the larger circle takes. */
const LARGE = 0.56
/** The width of a cell, and the margin round the cells, in spacings. */
const CELL = 5.2
const RIM = 0.9

/** How much more it counts, in choosing a grid, that cells are square, or not larger, than that they are not smaller. */
const SQUARE = 2
const LARGER = 4

/** The grid whose cells are the squarest and the nearest to a wanted size, of those with about so many rows. */
function squareGrid(area: Rectangle, wanted: number): Grid {
  const { rows } = centreGrid(area, wanted)
  const cost = (grid: Grid) => {
    const [du, dv] = fineCell(area, grid)
    const size = Math.log(Math.min(du, dv) / wanted)
    return SQUARE * Math.abs(Math.log(du / dv)) + Math.max(LARGER * size, -size)
  }
  return [rows - 1, rows, rows + 1]
    .filter((count) => count > 0)
    .map((count) => centreGrid(area, area.height / (2 * count)))
    .reduce((a, b) => (cost(b) < cost(a) ? b : a))
}

/** A circle in the middle of a cell of a mesh: large and small ones like the squares of a chessboard. */
const circleIn = ([c, r]: Cell, [du, dv]: Point): Circle => ({
  centre: [(c + 0.5) * du, (r + 0.5) * dv],
  radius: ((c + r) % 2 === 0 ? LARGE : 1 - LARGE) * Math.min(du, dv),
})

export default defineCentre({
  title: 'Swirl',
  source: 'Archimedean spirals in and out on touching circles, in the order of a walk round a random tree',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: 9, min: 3, max: 40 },
  },
  closeness: 'spacing',
  suitsFrom: 80,
  ports: 'middle',
  joints: 'smooth',
  fill: (area, values) => {
    const spacing = Math.min(
      values.spacing,
      area.width / (2 * CELL + 2 * RIM),
      area.height / (2 * CELL + 2 * RIM),
    )
    const rim = RIM * spacing
    const inner = { ...area, width: area.width - 2 * rim, height: area.height - 2 * rim }
    const grid = squareGrid(inner, CELL * spacing)
    const mesh = fineCell(inner, grid)
    const cells = walkRound(grid, growTree(grid, seededRandom(area.seed), 'one'))
    const circles = cells.map((cell): Circle => {
      const { centre, radius } = circleIn(cell, mesh)
      return { centre: [centre[0] + rim, centre[1] + rim], radius }
    })
    const links = circles.slice(1).map((): Link => 'through')
    const ends = { turn: -1, enter: -1.1, leave: Math.PI + 0.3, spacing: Math.min(...mesh) / CELL } as const
    const port: Point = [rim + grid.columns * mesh[0], 0]
    const chain = { spirals: linkedSpirals(circles, links, ends), links }
    const stroke = chainStroke(chain, [{ at: port, along: [-1, 0] }], () => [{ at: port, along: [0, -1] }])
    return { stroke, touches: [0, stroke.segments.length] }
  },
})
