import type { Random } from './random.ts'

/** A cell of a grid: column and row, whole numbers from 0. */
export type Cell = readonly [column: number, row: number]

/** A grid of coarse cells, each of which the walk crosses as two by two fine cells. */
export interface Grid {
  readonly columns: number
  readonly rows: number
  /**
   * Whether a cell belongs to it; left out: all do. What belongs to it hangs together, the middle of row 0 included; if
   * many trees stand on the ground, what belongs to row 0 begins at its left end.
   */
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

/** The way to each neighbour of a cell. */
const STEPS: readonly Cell[] = [
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
]

/** How many cells of row 0 lie on the ground, from its left end. */
function groundOf({ columns, has }: Grid): number {
  let wide = columns
  while (has && wide > 1 && !has([wide - 1, 0])) wide--
  return wide
}

/**
 * A random tree that spans the grid, grown from trunks on the ground: every cell hangs on exactly one of them.
 *
 * @param trunks  `one` for a single tree that passes the middle of row 0, `many` for a row of them
 */
export function growTree(grid: Grid, random: Random, trunks: 'one' | 'many'): Tree {
  const [right, up, ground] = [new Set<number>(), new Set<number>(), new Set<number>()]
  const seen = new Uint8Array(grid.columns * grid.rows)
  const active: Cell[] = []
  const take = (cell: Cell) => {
    seen[cell[0] * grid.rows + cell[1]] = 1
    active.push(cell)
  }
  const isFree = (c: number, r: number) =>
    c >= 0 &&
    r >= 0 &&
    c < grid.columns &&
    r < grid.rows &&
    seen[c * grid.rows + r] === 0 &&
    (grid.has?.([c, r]) ?? true)
  const plant = (column: number) => {
    ground.add(column)
    take([column, 0])
  }
  const wide = trunks === 'one' ? grid.columns : groundOf(grid)
  const first = trunks === 'one' ? Math.floor((grid.columns - 1) / 2) : random.below(wide)
  for (let c = 0; c < wide; c++) if (c === first || (trunks === 'many' && random.next() < TRUNKS)) plant(c)
  if (trunks === 'one' && grid.columns % 2 === 0) {
    right.add(cellKey([first, 0]))
    take([first + 1, 0])
  }
  while (active.length > 0) {
    const at = random.next() < EAGER ? active.length - 1 : random.below(active.length)
    const cell = active[at]!
    const free = STEPS.filter(([right, above]) => isFree(cell[0] + right, cell[1] + above))
    const step = free[random.below(free.length)]
    if (!step) {
      active.splice(at, 1)
      continue
    }
    const next: Cell = [cell[0] + step[0], cell[1] + step[1]]
    const joined = cellKey([Math.min(cell[0], next[0]), Math.min(cell[1], next[1])])
    if (step[1] === 0) right.add(joined)
    else up.add(joined)
    take(next)
  }
  return { right, up, ground }
}

/** The fine cells that the walk joins: each to at most two others. */
class Ways {
  readonly #rows: number
  /** Two places for each fine cell: the numbers of those that it is joined to, NONE where there is none yet. */
  readonly #joined: Int32Array

  constructor(columns: number, rows: number) {
    this.#rows = rows
    this.#joined = new Int32Array(2 * columns * rows).fill(NONE)
  }

  /** Joins the cell in column `c` and row `r` to the one `right` columns and `up` rows further on. */
  join(c: number, r: number, [right, up]: Cell): void {
    const from = c * this.#rows + r
    const to = (c + right) * this.#rows + r + up
    this.#note(from, to)
    this.#note(to, from)
  }

  #note(from: number, to: number): void {
    const place = 2 * from
    this.#joined[this.#joined[place] === NONE ? place : place + 1] = to
  }

  /** The cells from a cell on, until there is no new one: by its first way, or away from the cell `not`. */
  follow([c, r]: Cell, not?: Cell): Cell[] {
    const path: Cell[] = []
    const start = c * this.#rows + r
    let before = not ? not[0] * this.#rows + not[1] : this.#joined[2 * start + 1]!
    let at = start
    do {
      path.push([Math.floor(at / this.#rows), at % this.#rows])
      const first = this.#joined[2 * at]!
      const next = first === before ? this.#joined[2 * at + 1]! : first
      before = at
      at = next
    } while (at !== NONE && at !== start)
    return path
  }
}

const NONE = -1
const RIGHT: Cell = [1, 0]
const UP: Cell = [0, 1]

/** Where the tree goes on from a coarse cell. */
interface Open {
  readonly right: boolean
  readonly left: boolean
  readonly up: boolean
  readonly down: boolean
}

/** Joins the four fine cells of a coarse one, the lower left one given, round its rim, open where the tree goes on. */
function joinRim(ways: Ways, [u, v]: Cell, open: Open): void {
  if (!open.down) ways.join(u, v, RIGHT)
  if (!open.left) ways.join(u, v, UP)
  if (open.right) {
    ways.join(u + 1, v, RIGHT)
    ways.join(u + 1, v + 1, RIGHT)
  } else ways.join(u + 1, v, UP)
  if (open.up) {
    ways.join(u, v + 1, UP)
    ways.join(u + 1, v + 1, UP)
  } else ways.join(u, v + 1, RIGHT)
}

/** Joins the lane along the ground: up the trunks, and on past the cells between them. */
function joinLane(ways: Ways, grid: Grid, tree: Tree): void {
  const wide = groundOf(grid)
  for (let c = 0; c < wide; c++) {
    if (tree.ground.has(c)) {
      ways.join(2 * c, 0, UP)
      ways.join(2 * c + 1, 0, UP)
    } else ways.join(2 * c, 0, RIGHT)
    if (c + 1 < wide) ways.join(2 * c + 1, 0, RIGHT)
  }
}

/** @param lane  fine rows below the tree: 1 with a lane along the ground, otherwise 0 */
function waysOf(grid: Grid, tree: Tree, lane: 0 | 1): Ways {
  const ways = new Ways(2 * grid.columns, 2 * grid.rows + lane)
  for (let c = 0; c < grid.columns; c++)
    for (let r = 0; r < grid.rows; r++)
      joinRim(ways, [2 * c, 2 * r + lane], {
        right: tree.right.has(cellKey([c, r])),
        left: tree.right.has(cellKey([c - 1, r])),
        up: tree.up.has(cellKey([c, r])),
        down: r === 0 ? lane === 1 && tree.ground.has(c) : tree.up.has(cellKey([c, r - 1])),
      })
  if (lane === 1) joinLane(ways, grid, tree)
  return ways
}

/**
 * The walk along the ground and round every tree on it: through each fine cell once, from the left end of the lane
 * (row 0) to its right end. The fine grid is 2 x columns wide and 2 x rows + 1 high.
 *
 * @source walking round a spanning tree passes every cell of the grid of half the mesh exactly once
 */
export const walkPast = (grid: Grid, tree: Tree): Cell[] => waysOf(grid, tree, 1).follow([0, 0])

/**
 * The closed walk round a tree that passes the middle of row 0, cut there between two fine cells: from the left one of
 * them to the right one. The fine grid is 2 x columns wide and 2 x rows high.
 */
export function walkRound(grid: Grid, tree: Tree): Cell[] {
  return waysOf(grid, tree, 0).follow([grid.columns - 1, 0], [grid.columns, 0])
}
