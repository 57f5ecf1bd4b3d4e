import { cellKey, type Grid, type Tree } from './tree-walk.ts'

/** The cells of a grid in a spiral from the corner [0, 0] inward. */
function spiralCells({ columns, rows }: Grid): [number, number][] {
  const cells: [number, number][] = []
  let [left, right, low, high] = [0, columns - 1, 0, rows - 1]
  while (left <= right && low <= high) {
    for (let c = left; c <= right; c++) cells.push([c, low])
    for (let r = low + 1; r <= high; r++) cells.push([right, r])
    if (high > low) for (let c = right - 1; c >= left; c--) cells.push([c, high])
    if (right > left) for (let r = high - 1; r > low; r--) cells.push([left, r])
    left++
    right--
    low++
    high--
  }
  return cells
}

/** The tree without branches that winds through a grid from its corner inward: the walk round it is a double spiral. */
export function spiralTree(grid: Grid): Tree {
  const cells = spiralCells(grid)
  const [right, up] = [new Set<number>(), new Set<number>()]
  cells.slice(1).forEach(([c, r], i) => {
    const [a, b] = cells[i]!
    const joined = cellKey([Math.min(a, c), Math.min(b, r)])
    if (b === r) right.add(joined)
    else up.add(joined)
  })
  return { right, up, ground: new Set() }
}
