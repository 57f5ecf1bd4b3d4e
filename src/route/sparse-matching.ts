import { minimumMatching } from './matching.ts'
import type { Matching } from './matching-problem.ts'
import type { NearSearch } from './near-search.ts'

/** Pairs of terminals by index, with their distances. */
class PairList {
  private readonly known = new Map<number, number>()

  constructor(private readonly terminals: readonly number[]) {}

  /** Adds a pair; false if it was there already. */
  add(i: number, j: number, distance: number): boolean {
    const key = i < j ? i * this.terminals.length + j : j * this.terminals.length + i
    if (this.known.has(key)) return false
    this.known.set(key, distance)
    return true
  }

  /** The matching over these pairs, with `free` dummies joined to every terminal and to each other at no cost. */
  match(free: number): Matching | undefined {
    const n = this.terminals.length
    const rows: [number, number, number][] = []
    for (const [key, d] of this.known) rows.push([Math.floor(key / n), key % n, d])
    for (let f = 0; f < free; f++) {
      for (let i = 0; i < n; i++) rows.push([i, n + f, 0])
      if (f > 0) rows.push([n, n + f, 0])
    }
    return minimumMatching({
      vertexCount: n + free,
      u: Int32Array.from(rows, (r) => r[0]),
      v: Int32Array.from(rows, (r) => r[1]),
      cost: Float64Array.from(rows, (r) => r[2]),
    })
  }
}

const NEAREST = 10

/** Adds for every terminal its `count` nearest others. */
function addNearest(
  search: NearSearch,
  at: { terminals: readonly number[]; index: Int32Array },
  to: { pairs: PairList; count: number },
): void {
  at.terminals.forEach((source, i) => {
    let met = 0
    search.run(source, (x, d) => {
      const j = at.index[x]!
      if (j === -1 || j === i) return false
      to.pairs.add(i, j, d)
      return ++met >= to.count
    })
  })
}

/** Adds the pairs whose reduced cost is negative; returns how many. Only pairs with 4d below the sum of duals can be. */
function addViolated(
  search: NearSearch,
  at: { terminals: readonly number[]; index: Int32Array },
  from: { pairs: PairList; matching: Matching },
): number {
  const { pairs, matching } = from
  const { dual } = matching
  let most = Number.NEGATIVE_INFINITY
  for (let i = 0; i < at.terminals.length; i++) most = Math.max(most, dual[i]!)
  let added = 0
  at.terminals.forEach((source, i) => {
    const radius = (dual[i]! + most) / 4
    search.run(source, (x, d) => {
      if (d >= radius) return true
      const j = at.index[x]!
      if (j > i && matching.reducedCost(i, j, d) < 0 && pairs.add(i, j, d)) added++
      return false
    })
  })
  return added
}

/**
 * The least perfect matching of many terminals: first over near pairs only, then with every left-out pair added that its
 * duals cannot rule out, until none is left. The result is exact.
 *
 * @param free  so many dummies may take a terminal at no cost
 * @returns undefined if there is no perfect matching
 * @source pricing as in Applegate & Cook, "Solving large-scale matching problems", DIMACS 12 (1993)
 */
export function sparseMatching(
  search: NearSearch,
  terminals: readonly number[],
  free: number,
): Matching | undefined {
  const index = new Int32Array(search.vertexCount).fill(-1)
  terminals.forEach((x, i) => {
    index[x] = i
  })
  const at = { terminals, index }
  const pairs = new PairList(terminals)
  for (let count = NEAREST; ; count *= 2) {
    addNearest(search, at, { pairs, count })
    let matching = pairs.match(free)
    while (matching && addViolated(search, at, { pairs, matching }) > 0) matching = pairs.match(free)
    if (matching || count >= terminals.length) return matching
  }
}
