import type { Matching, MatchingProblem } from './matching-problem.ts'
import { MatchingSearch } from './matching-search.ts'

/**
 * A perfect matching of least cost in a general graph, exact in integers.
 *
 * @param problem  costs are integers, 0 or more; parallel edges are allowed, loops are ignored
 * @returns undefined if there is no perfect matching
 * @source Edmonds 1965; the O(n^3) primal-dual method with a search from all free vertices: Galil, "Efficient algorithms
 *   for finding maximum matching in graphs", ACM Computing Surveys 18 (1986)
 */
export function minimumMatching(problem: MatchingProblem): Matching | undefined {
  if (problem.vertexCount % 2 === 1) return undefined
  const search = new MatchingSearch(problem)
  if (!search.solve()) return undefined
  const partner = search.partners()
  let cost = 0
  for (let k = 0; k < problem.u.length; k++)
    if (search.mate[problem.u[k]!]! >> 1 === k) cost += problem.cost[k]!
  const reducedCost = (a: number, b: number, c: number) =>
    4 * c - search.y[a]! - search.y[b]! + search.cover(a, b)
  return { partner, cost, reducedCost, dual: search.y.subarray(0, problem.vertexCount) }
}
