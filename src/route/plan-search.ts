import { type Area, type AreaOrder, asArea } from './area-order.ts'
import { choosePorts, estimatePorts, type PortChoice, type PortProblem } from './choose-ports.ts'
import type { Piece } from './lower-bound.ts'
import { integerCost, type Network } from './network.ts'
import { handoverPorts } from './ports.ts'
import { ANYWHERE, Stage, type StageSite, type StageWork } from './stage.ts'
import { stagesOf, type Workshop } from './stage-work.ts'
import type { RouteWeights } from './weights.ts'

/** Where the whole route begins and ends. */
interface RouteEnds {
  readonly start?: number | undefined
  readonly end?: number | undefined
  readonly closed?: boolean | undefined
}

/** What is the same for every plan. */
export interface Site extends StageSite {
  readonly network: Network
  readonly workshop: Workshop
  /** The separate parts of the graph, in the order in which they are worked. */
  readonly pieces: readonly Piece[]
  readonly ends: RouteEnds
  /** No walk begins before an earlier area is done in all parts of the graph. */
  readonly strict: boolean
  readonly weights: RouteWeights
  /** Stages made so far, shared between plans. */
  readonly stages: Map<string, Stage>
}

/** A chain of stages with its handovers: a plan for one separate part of the graph, or for all of it. */
export interface Chain {
  /** What each stage is in this plan; a stage itself may be shared with other plans, under another area's number. */
  readonly works: readonly StageWork[]
  readonly stages: readonly Stage[]
  readonly choice: PortChoice
}

/** A plan with its handovers chosen. */
export interface SolvedPlan {
  /** Index of the plan. */
  readonly plan: number
  readonly chains: readonly Chain[]
  /** In thousandths. */
  readonly cost: number
}

interface ChainProblem {
  readonly works: readonly StageWork[]
  readonly problem: PortProblem
  readonly cost: number
}

interface Estimate {
  readonly plan: number
  readonly chains: readonly ChainProblem[]
  readonly moves: number
  readonly cost: number
}

/** So many of the plans that look cheapest are solved for good. */
const FINALISTS = 4
/** A closed route tries at most so many places to begin. */
const BASES = 8

/** The stage for this work and these ports, shared between plans that have it in common. */
function sharedStage(site: Site, work: StageWork, ports: readonly number[]): Stage {
  const keep = [...new Set(ports)].filter((x) => x !== ANYWHERE).sort((a, b) => a - b)
  const key = `${work.key}|${keep.join()}|${work.passable.key}`
  let stage = site.stages.get(key)
  if (!stage) {
    stage = new Stage(work, site, keep)
    site.stages.set(key, stage)
  }
  return stage
}

/** The first and last handover of a chain: all the pairs that are possible. */
function outerEnds(works: readonly StageWork[], { start, end, closed }: RouteEnds): [number, number][] {
  if (!closed) return [[start ?? ANYWHERE, end ?? ANYWHERE]]
  const given = start ?? end
  if (given !== undefined) return [[given, given]]
  const first = works[0]!
  const bases = new Set([...first.odd, ...works.at(-1)!.odd, ...first.vertices])
  return [...bases].slice(0, BASES).map((x) => [x, x])
}

/** The handovers of a chain to choose from, with the estimated best of its possible ends. */
function chainProblem(site: Site, works: readonly StageWork[], ends: RouteEnds): ChainProblem | undefined {
  const inner = works.slice(1).map((_, s) => [...handoverPorts(site.surroundings.near, works, s), ANYWHERE])
  const startCost = integerCost(site.weights.start)
  let best: ChainProblem | undefined
  for (const [start, end] of outerEnds(works, ends)) {
    const handovers = [[start], ...inner, [end]]
    const stages = works.map((work, s) => sharedStage(site, work, [...handovers[s]!, ...handovers[s + 1]!]))
    const problem = { stages, handovers, startCost }
    const cost = estimatePorts(problem)?.cost ?? Number.POSITIVE_INFINITY
    if (cost < (best?.cost ?? Number.POSITIVE_INFINITY)) best = { works, problem, cost }
  }
  return best
}

/** The areas of a plan in each separate part of the graph or, in strict order, in all of it. */
function areasByPart(site: Site, plan: AreaOrder): { areas: NumberedArea[]; ends: RouteEnds }[] {
  const { network, ends, pieces } = site
  const whole = plan.map((area, i) => ({ area: i, of: asArea(area) }))
  if (site.strict || pieces.length === 1) return [{ areas: whole, ends }]
  return pieces.map(({ vertices }) => {
    const areas = whole.map(({ area, of }) => ({
      area,
      of: { ...of, required: of.required.filter((e) => vertices.has(network.u[e]!)) },
    }))
    const within = (x: number | undefined) => (x !== undefined && vertices.has(x) ? x : undefined)
    return { areas, ends: { start: within(ends.start), end: within(ends.end), closed: ends.closed } }
  })
}

interface NumberedArea {
  readonly area: number
  readonly of: Area
}

/** How often the work goes on to another area. */
const movesBetween = (areas: readonly NumberedArea[]): number =>
  Math.max(0, areas.filter(({ of }) => of.required.length > 0).length - 1)

/** What a plan costs at least or, with luck, exactly; undefined if it cannot be walked, or not for less than `limit`. */
function estimatePlan(
  site: Site,
  at: { plan: AreaOrder; index: number; limit: number },
): Estimate | undefined {
  const parts = areasByPart(site, at.plan)
  const moves = parts.reduce((sum, { areas }) => sum + movesBetween(areas), 0)
  let cost = moves * integerCost(site.weights.reposition)
  const chains: ChainProblem[] = []
  for (const { areas, ends } of parts) {
    if (cost >= at.limit) return undefined
    const works = stagesOf(site.workshop, areas)
    if (works.length === 0) continue
    const chain = chainProblem(site, works, ends)
    if (!chain) return undefined
    chains.push(chain)
    cost += chain.cost
  }
  return { plan: at.index, chains, moves, cost }
}

function settlePlan(site: Site, estimate: Estimate): SolvedPlan | undefined {
  const chains: Chain[] = []
  let cost = estimate.moves * integerCost(site.weights.reposition)
  for (const { works, problem } of estimate.chains) {
    const choice = choosePorts(problem)
    if (!choice) return undefined
    chains.push({ works, stages: problem.stages, choice })
    cost += choice.cost
  }
  return { plan: estimate.plan, chains, cost }
}

/**
 * The cheapest of several plans, cheapest first, in the order given where they cost the same. Plans are ranked by their
 * estimates, which are exact where areas hang together; the few best are then solved for good.
 *
 * @returns none if none can be walked
 */
export function searchPlans(site: Site, plans: readonly AreaOrder[]): SolvedPlan[] {
  const estimates: Estimate[] = []
  let limit = Number.POSITIVE_INFINITY
  plans.forEach((plan, index) => {
    const estimate = estimatePlan(site, { plan, index, limit })
    if (!estimate) return
    estimates.push(estimate)
    if (estimate.cost < limit) limit = estimate.cost
  })
  estimates.sort((a, b) => a.cost - b.cost || a.plan - b.plan)
  return estimates
    .slice(0, FINALISTS)
    .flatMap((estimate) => settlePlan(site, estimate) ?? [])
    .sort((a, b) => a.cost - b.cost)
}
