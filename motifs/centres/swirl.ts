import { IDENTITY } from '../../src/geometry/affine.ts'
import type { Point } from '../../src/geometry/point.ts'
import { transformStroke } from '../../src/geometry/stroke.ts'
import { defineCentre } from '../../src/motif/centre-contract.ts'
import { centreGrid, fineCell } from '../../src/motif/centre-grid.ts'
import type { Circle } from '../../src/motif/circle-columns.ts'
import { chainStroke, type Link, linkedSpirals } from '../../src/motif/linked-spirals.ts'
import { seededRandom } from '../../src/motif/random.ts'
import { type Cell, growTree, walkRound } from '../../src/motif/tree-walk.ts'

/** The share of two neighbours' room that the larger circle takes. */
const LARGE = 0.56
/** The width of a cell, and the margin round the cells, in spacings. */
const CELL = 5.2
const RIM = 0.9

/** A circle in the middle of its cell: large and small ones like the squares of a chessboard. */
const circleIn = ([c, r]: Cell): Circle => ({
  centre: [c + 0.5, r + 0.5],
  radius: (c + r) % 2 === 0 ? LARGE : 1 - LARGE,
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
    const grid = centreGrid(inner, CELL * spacing)
    const [du, dv] = fineCell(inner, grid)
    const cells = walkRound(grid, growTree(grid, seededRandom(area.seed), 'one'))
    const circles = cells.map(circleIn)
    const links = circles.slice(1).map((): Link => 'through')
    const ends = { turn: -1, enter: -1.1, leave: Math.PI + 0.3, spacing: 1 / CELL } as const
    const spirals = linkedSpirals(circles, links, ends)
    const port: Point = [grid.columns, -rim / dv]
    const chain = { spirals, links, maps: spirals.map(() => IDENTITY) }
    const drawn = chainStroke(chain, [{ at: port, along: [-1, 0] }], () => [{ at: port, along: [0, -1] }])
    const stroke = transformStroke(drawn, { a: du, b: 0, c: 0, d: dv, e: rim, f: rim })
    return { stroke, touches: [0, stroke.segments.length] }
  },
})
