import { minimumMatching } from './matching.ts'
import type { Matching, MatchingProblem } from './matching-problem.ts'
import type { Metric } from './shortest-paths.ts'
import { sparseMatching } from './sparse-matching.ts'

/** How many ends of the walk the planner may choose: none, one, or both. */
export type FreeEnds = 0 | 1 | 2

/** The cheapest way to make the degrees right: paths between pairs, and which terminals became ends of the walk. */
export interface TJoin {
  readonly cost: number
  readonly pairs: readonly (readonly [number, number])[]
  readonly ends: readonly number[]
}

function completeProblem(metric: Metric, terminals: readonly number[], free: FreeEnds): MatchingProblem {
  const n = terminals.length
  const total = n + free
  const room = (total * (total - 1)) / 2
  const u = new Int32Array(room)
  const v = new Int32Array(room)
  const cost = new Float64Array(room)
  let m = 0
  for (let i = 0; i < total; i++) {
    const distance = i < n ? metric.row(terminals[i]!).distance : undefined
    for (let j = i + 1; j < total; j++) {
      const d = j < n ? distance![terminals[j]!]! : 0
      if (!Number.isFinite(d)) continue
      u[m] = i
      v[m] = j
      cost[m++] = d
    }
  }
  return { vertexCount: total, u: u.subarray(0, m), v: v.subarray(0, m), cost: cost.subarray(0, m) }
}

/** Above so many terminals, or this many in a large network, only near pairs are matched, with proof. */
const COMPLETE_LIMIT = 300
const COMPLETE_LIMIT_LARGE = 24

function matchTerminals(metric: Metric, terminals: readonly number[], free: FreeEnds): Matching | undefined {
  const limit = metric.isLarge ? COMPLETE_LIMIT_LARGE : COMPLETE_LIMIT
  if (terminals.length > limit) return sparseMatching(metric.near, terminals, free)
  return minimumMatching(completeProblem(metric, terminals, free))
}

/** Two terminals and no choice of ends. */
function single(metric: Metric, terminals: readonly number[]): TJoin | undefined {
  const [a, b] = terminals as [number, number]
  const cost = metric.distance(a, b)
  return Number.isFinite(cost) ? { cost, pairs: [[a, b]], ends: [] } : undefined
}

/**
 * The least T-join: the cheapest set of extra passes after which exactly the terminals have changed parity, except that
 * `free` ends of the walk may be put at terminals and cost nothing.
 *
 * @param terminals  the vertices of odd degree, each once
 * @returns undefined if the terminals cannot be paired (an odd number in one piece of the network)
 * @source Edmonds & Johnson, "Matching, Euler tours and the Chinese postman", Math. Programming 5 (1973): a minimum
 *   perfect matching of the terminals in the shortest-path metric; a free end is a dummy joined to all at no cost
 */
export function minimumTJoin(
  metric: Metric,
  terminals: readonly number[],
  free: FreeEnds,
): TJoin | undefined {
  const n = terminals.length
  if ((n + free) % 2 === 1) return undefined
  if (n <= free) return { cost: 0, pairs: [], ends: terminals }
  if (n === 2) return single(metric, terminals)
  const matching = matchTerminals(metric, terminals, free)
  if (!matching) return undefined
  const pairs: [number, number][] = []
  const ends: number[] = []
  for (let i = 0; i < n; i++) {
    const j = matching.partner[i]!
    if (j >= n) ends.push(terminals[i]!)
    else if (i < j) pairs.push([terminals[i]!, terminals[j]!])
  }
  return { cost: matching.cost, pairs, ends }
}
