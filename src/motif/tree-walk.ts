import type { Random } from './random.ts'

/** A cell of a grid: column and row, whole numbers from 0. */
export type Cell = readonly [column: number, row: number]

/** A grid of coarse cells, each of which the walk crosses as two by two fine cells. */
export interface Grid {
  readonly columns: number
  readonly rows: number
  /** Whether a cell belongs to it; left out: all do. What belongs to it hangs together, the middle of row 0 included. */
  has?(cell: Cell): boolean
}

/** Which neighbours a tree joins: to the right, and above. `ground`: the cells of row 0 that stand on the ground. */
export interface Tree {
  readonly right: ReadonlySet<number>
  readonly up: ReadonlySet<number>
  readonly ground: ReadonlySet<number>
}

/** A number for a cell, or for the missing one beside an edge: grids are smaller than 65536 cells each way. */
export const cellKey = ([column, row]: Cell): number => column * 65536 + row

/** How often the tree grows on from its newest cell: long winding arms rather than bushes. */
const EAGER = 0.45
/** The share of the cells above the ground that stand on it. */
const TRUNKS = 0.35

/** The cells beside a cell, within the grid. */
function neighbours(grid: Grid, [c, r]: Cell): Cell[] {
  const all: Cell[] = [
    [c + 1, r],
    [c - 1, r],
    [c, r + 1],
    [c, r - 1],
  ]
  const isIn = ([i, j]: Cell) => i >= 0 && j >= 0 && i < grid.columns && j < grid.rows
  return all.filter((cell) => isIn(cell) && (grid.has?.(cell) ?? true))
}

/**
 * A random tree that spans the grid, grown from trunks on the ground: every cell hangs on exactly one of them.
 *
 * @param trunks  `one` for a single tree that passes the middle of row 0, `many` for a row of them
 */
export function growTree(grid: Grid, random: Random, trunks: 'one' | 'many'): Tree {
  const [right, up, ground] = [new Set<number>(), new Set<number>(), new Set<number>()]
  const seen = new Set<number>()
  const active: Cell[] = []
  const take = (cell: Cell) => {
    seen.add(cellKey(cell))
    active.push(cell)
  }
  const plant = (column: number) => {
    ground.add(column)
    take([column, 0])
  }
  const first = trunks === 'one' ? Math.floor((grid.columns - 1) / 2) : random.below(grid.columns)
  for (let c = 0; c < grid.columns; c++)
    if (c === first || (trunks === 'many' && random.next() < TRUNKS)) plant(c)
  if (trunks === 'one' && grid.columns % 2 === 0) {
    right.add(cellKey([first, 0]))
    take([first + 1, 0])
  }
  while (active.length > 0) {
    const at = random.next() < EAGER ? active.length - 1 : random.below(active.length)
    const cell = active[at]!
    const free = neighbours(grid, cell).filter((n) => !seen.has(cellKey(n)))
    const next = free[random.below(free.length)]
    if (!next) {
      active.splice(at, 1)
      continue
    }
    const [c, r] = [Math.min(cell[0], next[0]), Math.min(cell[1], next[1])]
    if (cell[1] === next[1]) right.add(cellKey([c, r]))
    else up.add(cellKey([c, r]))
    take(next)
  }
  return { right, up, ground }
}

/** The fine cells that the walk joins, and to which. */
type Ways = Map<number, Cell[]>

function joinCells(ways: Ways, a: Cell, b: Cell): void {
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    const known = ways.get(cellKey(from))
    if (known) known.push(to)
    else ways.set(cellKey(from), [to])
  }
}

/** Joins the four fine cells of a coarse one round its rim, open where the tree goes on. `base`: fine rows below. */
function joinRim(
  ways: Ways,
  [c, r]: Cell,
  open: (side: 'right' | 'up' | 'left' | 'down') => boolean,
  base: number,
) {
  const [u, v] = [2 * c, 2 * r + base]
  const [a, b, d, e]: Cell[] = [
    [u, v],
    [u + 1, v],
    [u, v + 1],
    [u + 1, v + 1],
  ] as [Cell, Cell, Cell, Cell]
  if (!open('down')) joinCells(ways, a!, b!)
  if (!open('left')) joinCells(ways, a!, d!)
  if (open('right')) {
    joinCells(ways, b!, [u + 2, v])
    joinCells(ways, e!, [u + 2, v + 1])
  } else joinCells(ways, b!, e!)
  if (open('up')) {
    joinCells(ways, d!, [u, v + 2])
    joinCells(ways, e!, [u + 1, v + 2])
  } else joinCells(ways, d!, e!)
}

/** Joins the lane along the ground: up the trunks, and on past the cells between them. */
function joinLane(ways: Ways, grid: Grid, tree: Tree): void {
  for (let c = 0; c < grid.columns; c++) {
    const [left, right]: [Cell, Cell] = [
      [2 * c, 0],
      [2 * c + 1, 0],
    ]
    if (tree.ground.has(c)) {
      joinCells(ways, left, [2 * c, 1])
      joinCells(ways, right, [2 * c + 1, 1])
    } else joinCells(ways, left, right)
    if (c + 1 < grid.columns) joinCells(ways, right, [2 * c + 2, 0])
  }
}

function waysOf(grid: Grid, tree: Tree, lane: boolean): Ways {
  const ways: Ways = new Map()
  for (let c = 0; c < grid.columns; c++)
    for (let r = 0; r < grid.rows; r++) {
      const open = {
        right: () => tree.right.has(cellKey([c, r])),
        left: () => tree.right.has(cellKey([c - 1, r])),
        up: () => tree.up.has(cellKey([c, r])),
        down: () => (r === 0 ? lane && tree.ground.has(c) : tree.up.has(cellKey([c, r - 1]))),
      }
      joinRim(ways, [c, r], (side) => open[side](), lane ? 1 : 0)
    }
  if (lane) joinLane(ways, grid, tree)
  return ways
}

/** Follows the ways from a cell to the next cells until there is no new one. */
function follow(ways: Ways, from: Cell, first?: Cell): Cell[] {
  const path: Cell[] = [from]
  const seen = new Set([cellKey(from)])
  let next = first ?? ways.get(cellKey(from))?.[0]
  while (next) {
    path.push(next)
    seen.add(cellKey(next))
    next = ways.get(cellKey(next))?.find((cell) => !seen.has(cellKey(cell)))
  }
  return path
}

/**
 * The walk along the ground and round every tree on it: through each fine cell once, from the left end of the lane
 * (row 0) to its right end. The fine grid is 2 x columns wide and 2 x rows + 1 high.
 *
 * @source walking round a spanning tree passes every cell of the grid of half the mesh exactly once
 */
export const walkPast = (grid: Grid, tree: Tree): Cell[] => follow(waysOf(grid, tree, true), [0, 0])

/**
 * The closed walk round a tree that passes the middle of row 0, cut there between two fine cells: from the left one of
 * them to the right one. The fine grid is 2 x columns wide and 2 x rows high.
 */
export function walkRound(grid: Grid, tree: Tree): Cell[] {
  const ways = waysOf(grid, tree, false)
  const start: Cell = [grid.columns - 1, 0]
  const end = cellKey([grid.columns, 0])
  return follow(
    ways,
    start,
    ways.get(cellKey(start))!.find((cell) => cellKey(cell) !== end),
  )
}
