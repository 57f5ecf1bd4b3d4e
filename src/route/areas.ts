import { PlanError, type Problem } from '../error.ts'
import { assembleRoute, type RouteResult } from './assemble-route.ts'
import { choosePorts, type PortChoice } from './choose-ports.ts'
import { checkGraph, checkVertex, type RouteGraph } from './graph.ts'
import { type Piece, requiredPieces } from './lower-bound.ts'
import { integerCost, type Network } from './network.ts'
import { handoverPorts } from './ports.ts'
import { ITERATIONS, networkOf } from './postman.ts'
import type { Effort } from './search.ts'
import { ANYWHERE, Stage, type StageWork } from './stage.ts'
import { type Area, stagesOf } from './stage-work.ts'
import { ROUTE_WEIGHTS, type RouteWeights } from './weights.ts'

/**
 * One way to divide and order the work: areas, each with the required edges that are stitched in it. The full form of
 * an area also says which seams can be travelled meanwhile.
 */
export type AreaOrder = readonly (readonly number[] | Area)[]

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
  readonly iterations?: number
  readonly seed?: number
}

/** A chain of stages with its handovers: one plan for one separate part of the graph, or for all of it. */
export interface Chain {
  readonly stages: readonly Stage[]
  readonly choice: PortChoice
}

const asArea = (area: readonly number[] | Area): Area => ('required' in area ? area : { required: area })

function planProblems(graph: RouteGraph, plan: AreaOrder, at: string): Problem[] {
  const count = new Int32Array(graph.edges.length)
  const problems: Problem[] = []
  plan.forEach((area, a) => {
    for (const e of asArea(area).required) {
      if (!graph.edges[e]?.required)
        problems.push({
          code: 'route/not-required',
          at: `${at}[${a}]`,
          message: `edge ${e} is not a required edge`,
        })
      else count[e]!++
    }
  })
  graph.edges.forEach((edge, e) => {
    if (edge.required && count[e] !== 1)
      problems.push({
        code: 'route/area-cover',
        at,
        message: `edge ${e} lies in ${count[e]} areas; must lie in one`,
      })
  })
  return problems
}

/** What is the same for every plan. */
interface Site {
  readonly graph: RouteGraph
  readonly network: Network
  readonly pieces: readonly Piece[]
  readonly options: AreaOptions
  readonly weights: RouteWeights
  readonly effort: Effort
  readonly stages: Map<string, Stage>
}

/** The stage for this work and these ports, shared between plans that have it in common. */
function sharedStage(site: Site, work: StageWork, ports: readonly number[]): Stage {
  const keep = [...new Set(ports)].filter((x) => x !== ANYWHERE).sort((a, b) => a - b)
  const passable = work.kind.reduce((hash, k, e) => (k === 2 ? (hash * 31 + e) % 1000000007 : hash), 7)
  const key = `${work.area}|${work.pieces.join()}|${keep.join()}|${passable}`
  let stage = site.stages.get(key)
  if (!stage) {
    stage = new Stage(work, site.network, keep, site.effort)
    site.stages.set(key, stage)
  }
  return stage
}

function solveChain(
  site: Site,
  works: readonly StageWork[],
  ends: { start?: number; end?: number },
): Chain | undefined {
  const inner = works.slice(1).map((_, s) => [...handoverPorts(site.network, works, s), ANYWHERE])
  const first = works[0]!
  const last = works.at(-1)!
  const closedAt = site.options.closed
    ? ends.start !== undefined
      ? [ends.start]
      : [...new Set([...first.odd, ...last.odd, ...first.vertices])].slice(0, 8)
    : [undefined]
  let best: Chain | undefined
  for (const base of closedAt) {
    const start = [base ?? ends.start ?? ANYWHERE]
    const end = [base ?? ends.end ?? ANYWHERE]
    const handovers = [start, ...inner, end]
    const stages = works.map((work, s) => sharedStage(site, work, [...handovers[s]!, ...handovers[s + 1]!]))
    const choice = choosePorts({ stages, handovers, startCost: integerCost(site.weights.start) })
    if (choice && (!best || choice.cost < best.choice.cost)) best = { stages, choice }
  }
  return best
}

/** The chains of a plan: one for each separate part of the graph, or a single strict one. */
function solvePlan(site: Site, plan: AreaOrder): { chains: Chain[]; cost: number } | undefined {
  const areas = plan.map((area, i) => ({ area: i, of: asArea(area) }))
  const parts = site.options.order === 'strict' ? [undefined] : site.pieces
  const chains: Chain[] = []
  let cost = 0
  for (const piece of parts) {
    const inside = (e: number) => !piece || piece.vertices.has(site.graph.edges[e]!.u)
    const works = stagesOf(
      site.network,
      areas.map(({ area, of }) => ({ area, of: { ...of, required: of.required.filter(inside) } })),
    )
    if (works.length === 0) continue
    const chain = solveChain(site, works, endsWithin(site.options, piece))
    if (!chain) return undefined
    chains.push(chain)
    cost +=
      chain.choice.cost + integerCost(site.weights.reposition) * (new Set(works.map((w) => w.area)).size - 1)
  }
  return { chains, cost }
}

function endsWithin({ start, end }: AreaOptions, piece: Piece | undefined): { start?: number; end?: number } {
  const inside = (x: number | undefined): x is number => x !== undefined && (!piece || piece.vertices.has(x))
  return { ...(inside(start) && { start }), ...(inside(end) && { end }) }
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
  const rank = (piece: Piece) =>
    start !== undefined && piece.vertices.has(start)
      ? 0
      : end !== undefined && piece.vertices.has(end)
        ? 2
        : 1
  return [...pieces].sort((a, b) => rank(a) - rank(b))
}

/**
 * One line over all required edges, worked area by area: an area is finished before the next begins. Tries every plan,
 * chooses the ways in and out by dynamic programming, and takes the cheapest. Where the graph is in separate parts, each
 * is a walk of its own.
 *
 * @throws PlanError `route/no-plan`, `route/area-cover`, `route/not-required`, `route/unknown-vertex`,
 *   `route/unreachable` (no plan can be walked between the ends given), and the codes of `checkGraph`
 */
export function solveByAreas(graph: RouteGraph, options: AreaOptions): RouteResult {
  checkGraph(graph)
  checkVertex(options.start, 'start', graph)
  checkVertex(options.end, 'end', graph)
  if (options.plans.length === 0)
    throw new PlanError({ code: 'route/no-plan', at: 'plans', message: 'no plan given' })
  const problems = options.plans.flatMap((plan, i) => planProblems(graph, plan, `plans[${i}]`))
  if (problems.length > 0) throw new PlanError(problems)
  const weights = { ...ROUTE_WEIGHTS, ...options.weights }
  const network = networkOf(graph, weights)
  const pieces = requiredPieces(network)
  refuseStrayEnds(pieces, options)
  const site: Site = {
    graph,
    network,
    pieces: orderPieces(pieces, options),
    options,
    weights,
    effort: { iterations: options.iterations ?? ITERATIONS, seed: options.seed ?? 1 },
    stages: new Map(),
  }
  let best: { chains: Chain[]; cost: number; plan: number } | undefined
  options.plans.forEach((plan, i) => {
    // No plan is cheaper than its repositions alone: equals are left out, the first stands.
    if (best && best.cost <= integerCost(weights.reposition) * (plan.length - 1)) return
    const solved = solvePlan(site, plan)
    if (solved && (!best || solved.cost < best.cost)) best = { ...solved, plan: i }
  })
  if (!best)
    throw new PlanError({ code: 'route/unreachable', at: 'start', message: 'no walk reaches the ends given' })
  return assembleRoute({ graph, network, weights, effort: site.effort, options }, best)
}
