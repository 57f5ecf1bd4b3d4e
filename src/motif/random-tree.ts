import { seededRandom } from './random.ts'

/** A node of a grid: column from the left, row from the ground up; row 0 is the ground. */
export interface GridNode {
  readonly column: number
  readonly row: number
}

/** A grid whose nodes are joined into one tree; `isJoined` says whether two neighbours are. */
export interface GridTree {
  isJoined(a: GridNode, b: GridNode): boolean
}

/** What a tree grows on. */
export interface Ground {
  readonly columns: number
  /** Rows above the ground. */
  readonly rows: number
  /** Whether the last column is one straight trunk, as the ground is. */
  readonly hasWall: boolean
  readonly seed: number
}

/**
 * A random spanning tree in which the ground (and the wall) is one trunk and every other node hangs on it.
 *
 * @source Kruskal's algorithm (1956) with the joints in random order; upright joints a little earlier
 */
export function randomTree({ columns, rows, hasWall, seed }: Ground): GridTree {
  const random = seededRandom(seed).next
  const nameOf = ({ column, row }: GridNode) => row * columns + column
  const joints: { a: GridNode; b: GridNode; order: number }[] = []
  for (let row = 0; row <= rows; row++) {
    for (let column = 0; column < columns; column++) {
      const a = { column, row }
      const order = () => (row === 0 ? -1 : random())
      const isWall = hasWall && column === columns - 1
      if (column + 1 < columns) joints.push({ a, b: { column: column + 1, row }, order: order() })
      if (row < rows) joints.push({ a, b: { column, row: row + 1 }, order: isWall ? -1 : 0.8 * random() })
    }
  }
  const parent = Array.from({ length: columns * (rows + 1) }, (_, i) => i)
  const rootOf = (i: number): number => {
    let root = i
    while (parent[root] !== root) root = parent[root]!
    return root
  }
  const joined = new Set<string>()
  for (const { a, b } of joints.sort((p, q) => p.order - q.order)) {
    const [p, q] = [rootOf(nameOf(a)), rootOf(nameOf(b))]
    if (p === q) continue
    parent[p] = q
    joined.add(`${nameOf(a)},${nameOf(b)}`)
  }
  return {
    isJoined: (a, b) => joined.has(`${nameOf(a)},${nameOf(b)}`) || joined.has(`${nameOf(b)},${nameOf(a)}`),
  }
}
