import { PlanError } from '../error.ts'
import { type Contracted, contract } from './contract.ts'
import { eulerWalk } from './euler-walk.ts'
import { checkGraph, checkVertex, type DefaultPrices, priceOf, type RouteGraph, type Walk } from './graph.ts'
import { buildNetwork, integerCost, type Network } from './network.ts'
import { solveTask } from './solve-task.ts'
import { Task, type WalkEnds } from './task.ts'
import { UnionFind } from './union-find.ts'
import { ROUTE_WEIGHTS } from './weights.ts'

/** What kind of walk is wanted. Nothing given: both ends are free. */
export interface PostmanOptions {
  /** The walk begins here. */
  readonly start?: number
  /** The walk ends here. */
  readonly end?: number
  /** The walk ends where it began. */
  readonly closed?: boolean
  /** How many rounds of local search where pieces must be joined. */
  readonly iterations?: number
  readonly seed?: number
  readonly prices?: DefaultPrices
}

/** One walk over all required edges. */
export interface PostmanResult {
  readonly walk: Walk
  /** The price of the extra passes: mm times price. */
  readonly cost: number
  /** No walk costs less than this. */
  readonly lowerBound: number
}

/** Rounds of local search unless told otherwise. */
export const ITERATIONS = 400

/** The whole graph in typed arrays, edge for edge. */
export function networkOf(graph: RouteGraph, prices: DefaultPrices): Network {
  const { edges } = graph
  return buildNetwork(graph.vertexCount, {
    u: Int32Array.from(edges, (e) => e.u),
    v: Int32Array.from(edges, (e) => e.v),
    cost: Float64Array.from(edges, (e) => integerCost(e.length * priceOf(e, prices))),
    required: Uint8Array.from(edges, (e) => (e.required ? 1 : 0)),
  })
}

/** The ends that the options ask for. */
function endsOf({ start, end, closed }: PostmanOptions): WalkEnds {
  const given = [start, end].filter((x) => x !== undefined)
  if (closed) return { fixed: given.length > 0 ? [given[0]!, given[0]!] : [], free: 0 }
  return { fixed: given, free: (2 - given.length) as 0 | 1 | 2 }
}

/** Refuses a graph whose required edges and ends no single walk can reach, naming the pieces. */
function refuseUnreachable(network: Network, fixed: readonly number[]): void {
  const sets = new UnionFind(network.vertexCount)
  for (let e = 0; e < network.edgeCount; e++) sets.union(network.u[e]!, network.v[e]!)
  const pieces = new Map<number, number[]>()
  for (let e = 0; e < network.edgeCount; e++) {
    if (!network.required[e]) continue
    const root = sets.find(network.u[e]!)
    pieces.set(root, [...(pieces.get(root) ?? []), e])
  }
  for (const x of fixed) if (!pieces.has(sets.find(x))) pieces.set(sets.find(x), [])
  if (pieces.size <= 1) return
  const names = [...pieces.values()].map((edges) =>
    edges.length > 0 ? `edges ${edges.join(', ')}` : 'an end',
  )
  throw new PlanError({
    code: 'route/unreachable',
    at: '',
    message: `one walk cannot reach all of it: ${pieces.size} separate pieces (${names.join('; ')})`,
    hint: 'join them by a seam, or let the route start more than once',
  })
}

/** The original edges of a local solution: each required edge once, and every extra pass. */
export function expandPasses(local: Pick<Contracted, 'chains' | 'network'>, passes: Uint8Array): number[] {
  const list: number[] = []
  local.chains.forEach((chain, e) => {
    for (let k = passes[e]! + local.network.required[e]!; k > 0; k--) list.push(...chain)
  })
  return list
}

/**
 * The cheapest walk over all required edges of a graph, closed, between given ends or with free ends: the rural postman
 * problem. Exact where the required edges hang together, or come to by parity alone; otherwise a local search.
 *
 * @throws PlanError `route/unreachable` if no single walk reaches everything, and the codes of `checkGraph`
 */
export function solvePostman(graph: RouteGraph, options: PostmanOptions = {}): PostmanResult {
  checkGraph(graph)
  checkVertex(options.start, 'start', graph)
  checkVertex(options.end, 'end', graph)
  const network = networkOf(graph, options.prices ?? ROUTE_WEIGHTS)
  const ends = endsOf(options)
  refuseUnreachable(network, ends.fixed)
  const local = contract(network, { kind: network.required.map((r) => (r ? 1 : 2)), keep: ends.fixed })
  const task = new Task(local.network, { ...ends, fixed: ends.fixed.map((x) => local.local[x]!) })
  const solved = solveTask(task, { iterations: options.iterations ?? ITERATIONS, seed: options.seed ?? 1 })
  if (!solved)
    throw new PlanError({ code: 'route/unreachable', at: '', message: 'the ends cannot be reached' })
  const passes = expandPasses(local, solved.passes)
  const [start, end] = walkEnds(local, solved.ends, passes.length > 0 ? graph.edges[passes[0]!]!.u : 0)
  const steps = eulerWalk(graph, { edges: passes, start, end }).map((pass) => ({ ...pass, area: 0 }))
  return { walk: { start, end, steps }, cost: solved.cost / 1000, lowerBound: solved.bound / 1000 }
}

function walkEnds(local: Contracted, ends: readonly number[], anywhere: number): [number, number] {
  const [start, end] = ends
  if (start === undefined) return [anywhere, anywhere]
  return [local.original[start]!, local.original[end ?? start]!]
}
