import { PlanError } from '../error.ts'
import { type AreaOrder, planProblems } from './area-order.ts'
import { type RouteResult, tellRoute, walkPlan } from './assemble-route.ts'
import { checkGraph, checkVertex, type RouteGraph } from './graph.ts'
import { type Piece, requiredPieces } from './lower-bound.ts'
import { Surroundings } from './near-part.ts'
import { NearSearch } from './near-search.ts'
import { searchPlans } from './plan-search.ts'
import { networkOf } from './postman.ts'
import { Workshop } from './stage-work.ts'
import { completeWeights, type RouteWeights } from './weights.ts'

/** Rounds of local search per area unless told otherwise: there are many areas, and each is small. */
export const AREA_ITERATIONS = 40

export interface AreaOptions {
  /** The candidates; the cheapest is taken, the first of equals. Each must hold every required edge once. */
  readonly plans: readonly AreaOrder[]
  readonly start?: number
  readonly end?: number
  /** The last area ends where the first began. */
  readonly closed?: boolean
  readonly weights?: Partial<RouteWeights>
  /**
   * `walk`: each thread start works through the areas by itself. `strict`: no walk begins before an earlier area is
   * done, as on a frame.
   */
  readonly order?: 'walk' | 'strict'
  /** Rounds of local search where the pieces of an area must be joined; AREA_ITERATIONS if left out. */
  readonly iterations?: number
  readonly seed?: number
  /**
   * Judges finished routes of the cheapest plans: the one with the least value is taken, the first of equals. By `cost`
   * if left out.
   */
  readonly judge?: (route: Pick<RouteResult, 'walks' | 'extra'>) => number
}

/** Refuses a start or end that no required edge can be reached from. */
function refuseStrayEnds(pieces: readonly Piece[], { start, end }: AreaOptions): void {
  for (const [at, x] of Object.entries({ start, end }))
    if (x !== undefined && !pieces.some((piece) => piece.vertices.has(x)))
      throw new PlanError({
        code: 'route/unreachable',
        at,
        message: `nothing can be reached from vertex ${x}`,
      })
}

/** The part with the start comes first, the part with the end last. */
function orderPieces(pieces: readonly Piece[], { start, end }: AreaOptions): Piece[] {
  const rank = ({ vertices }: Piece) => {
    if (start !== undefined && vertices.has(start)) return 0
    return end !== undefined && vertices.has(end) ? 2 : 1
  }
  return [...pieces].sort((a, b) => rank(a) - rank(b))
}

function checkOptions(graph: RouteGraph, options: AreaOptions): void {
  checkGraph(graph)
  checkVertex(options.start, 'start', graph)
  checkVertex(options.end, 'end', graph)
  if (options.plans.length === 0)
    throw new PlanError({ code: 'route/no-plan', at: 'plans', message: 'no plan given' })
  const problems = options.plans.flatMap((plan, i) => planProblems(graph, plan, `plans[${i}]`))
  if (problems.length > 0) throw new PlanError(problems)
}

/**
 * One line over all required edges, worked area by area: an area is finished before the next begins. Tries every plan,
 * chooses the ways in and out by dynamic programming, and takes the cheapest. Where the graph is in separate parts, each
 * is a walk of its own.
 *
 * @throws PlanError `route/no-plan`, `route/area-cover`, `route/not-required`, `route/unknown-vertex`,
 *   `route/unreachable` (no plan can be walked between the ends given), `route/bad-weight`, and the codes of `checkGraph`
 */
export function solveByAreas(graph: RouteGraph, options: AreaOptions): RouteResult {
  checkOptions(graph, options)
  const weights = completeWeights(options.weights)
  const network = networkOf(graph, weights)
  const pieces = requiredPieces(network)
  refuseStrayEnds(pieces, options)
  const effort = { iterations: options.iterations ?? AREA_ITERATIONS, seed: options.seed ?? 1 }
  const { start, end, closed } = options
  const surroundings = new Surroundings(network, new NearSearch(network))
  const solved = searchPlans(
    {
      network,
      workshop: new Workshop(network),
      surroundings,
      cost: network.cost,
      pieces: orderPieces(pieces, options),
      ends: { start, end, closed },
      strict: options.order === 'strict',
      weights,
      effort,
      stages: new Map(),
    },
    options.plans,
  )
  if (solved.length === 0)
    throw new PlanError({ code: 'route/unreachable', at: 'start', message: 'no walk reaches the ends given' })
  const assembly = { graph, surroundings, weights, effort, options }
  const { judge } = options
  if (!judge) return tellRoute(assembly, walkPlan(assembly, solved[0]!))
  const walked = solved.map((plan) => walkPlan(assembly, plan))
  return tellRoute(assembly, leastOf(walked, judge))
}

/** The item with the least value, the first of equals. */
function leastOf<T>(items: readonly T[], worth: (item: T) => number): T {
  const values = items.map(worth)
  return items[values.indexOf(Math.min(...values))]!
}
