import type { AreaOptions } from './areas.ts'
import { eulerWalk } from './euler-walk.ts'
import type { RouteGraph, Step, Walk } from './graph.ts'
import { networkBound } from './lower-bound.ts'
import type { Surroundings } from './near-part.ts'
import { integerCost, type Network } from './network.ts'
import type { Chain, SolvedPlan } from './plan-search.ts'
import { expandPasses } from './postman.ts'
import type { Effort } from './search.ts'
import { ANYWHERE, Stage, type StagePlan } from './stage.ts'
import type { RouteWeights } from './weights.ts'

/** What an area of the chosen plan costs. */
export interface AreaReport {
  /** Length of its required edges, mm. */
  readonly required: number
  /** Price of the extra passes made in it: mm times price. */
  readonly extra: number
  /** No walk that stitches this area by itself, between whatever ends, costs less. */
  readonly parityBound: number
}

/** A planned route and what is known about it. */
export interface RouteResult {
  /** One walk a thread start. */
  readonly walks: readonly Walk[]
  /** Index of the plan that was taken. */
  readonly plan: number
  /** Extra passes, repositions and starts after the first, by their weights. */
  readonly cost: number
  /** Price of the extra passes alone: mm times price. */
  readonly extra: number
  /** Travel in seams, mm. */
  readonly travelMm: number
  /** Passes over required edges after the first, mm. */
  readonly overlapMm: number
  /** How often the work goes on to another area. */
  readonly repositions: number
  /** No route with as few starts as `startsBound` has a lower `extra`, in whatever order it works. */
  readonly lowerBound: number
  /** No route has fewer walks: the separate parts of the graph that hold required edges. */
  readonly startsBound: number
  /** Per area of the plan. */
  readonly perArea: readonly AreaReport[]
}

export interface Assembly {
  readonly graph: RouteGraph
  readonly surroundings: Surroundings
  readonly weights: RouteWeights
  readonly effort: Effort
  readonly options: AreaOptions
}

/** The seams used so far and what the next pass over them costs. */
class SeamUse {
  readonly used: Uint8Array
  readonly cost: Float64Array

  constructor(
    private readonly network: Network,
    private readonly again: number,
  ) {
    this.used = new Uint8Array(network.edgeCount)
    this.cost = network.cost.slice()
  }

  /** Notes a pass and returns its price, in thousandths. */
  pass(e: number): number {
    const { network } = this
    const first = this.used[e] === 0
    const price = network.required[e] && first ? 0 : this.cost[e]!
    this.used[e] = 1
    if (!network.required[e] && first) this.cost[e] = integerCost((network.cost[e]! * this.again) / 1000)
    return price
  }

  /** Whether the extra passes of a plan lie over a seam that was used before. */
  touches({ local, passes }: StagePlan): boolean {
    return local.chains.some(
      (chain, e) => passes[e]! > 0 && chain.some((k) => !this.network.required[k] && this.used[k] === 1),
    )
  }
}

/** The plan of a stage, solved again at today's prices if it would pass over a seam that was used before. */
function stagePlan(assembly: Assembly, at: { stage: Stage; p: number; q: number }, use: SeamUse): StagePlan {
  const { stage, p, q } = at
  const plan = stage.plan(p, q)
  if (!use.touches(plan)) return plan
  const ports = [p, q].filter((x) => x !== ANYWHERE)
  const repriced = new Stage(stage.work, { ...assembly, cost: use.cost }, ports)
  repriced.settle(p, q)
  // At prices that the whole stage was not planned for, the pair may have no solution of its own: the plan still stands.
  return repriced.hasPlan(p, q) ? repriced.plan(p, q) : plan
}

interface Progress {
  readonly walks: { start: number; end: number; steps: Step[] }[]
  /** Per area, in thousandths. */
  readonly extra: Float64Array
  readonly use: SeamUse
}

/** A plan as it is walked, before anything is said about it. */
export interface WalkedPlan extends Pick<RouteResult, 'walks' | 'extra'> {
  readonly solved: SolvedPlan
  readonly extraOf: Float64Array
}

/** Walks one chain and adds it to what is there: a new walk at its start and at every cut. */
function walkChain(assembly: Assembly, { works, stages, choice }: Chain, progress: Progress): void {
  stages.forEach((stage, s) => {
    const [p, q] = [choice.ports[s]!, choice.ports[s + 1]!]
    const plan = stagePlan(assembly, { stage, p, q }, progress.use)
    const edges = expandPasses(plan.local, plan.passes)
    const passes = eulerWalk(assembly.graph, { edges, start: plan.start, end: plan.end })
    const { area } = works[s]!
    if (s === 0 || p === ANYWHERE) progress.walks.push({ start: plan.start, end: plan.start, steps: [] })
    const walk = progress.walks.at(-1)!
    for (const pass of passes) {
      progress.extra[area]! += progress.use.pass(pass.edge)
      walk.steps.push({ ...pass, area })
    }
    walk.end = plan.end
  })
}

/** The steps of all stages in order. */
export function walkPlan(assembly: Assembly, solved: SolvedPlan): WalkedPlan {
  const { weights, options, surroundings } = assembly
  const areas = options.plans[solved.plan]!.length
  const use = new SeamUse(surroundings.network, weights.travelAgain)
  const progress: Progress = { walks: [], extra: new Float64Array(areas), use }
  for (const chain of solved.chains) walkChain(assembly, chain, progress)
  const extra = progress.extra.reduce((sum, x) => sum + x, 0) / 1000
  return { solved, walks: progress.walks, extra, extraOf: progress.extra }
}

/** A walked plan with the figures of the report. */
export function tellRoute(assembly: Assembly, { solved, walks, extra, extraOf }: WalkedPlan): RouteResult {
  const { graph, weights, options, surroundings } = assembly
  const repositions = countMoves(walks)
  const { cost: bound, starts } = networkBound(surroundings.network, options)
  return {
    walks,
    plan: solved.plan,
    cost: extra + weights.reposition * repositions + weights.start * (walks.length - 1),
    extra,
    ...passLengths(graph, walks),
    repositions,
    lowerBound: bound,
    startsBound: starts,
    perArea: reportAreas(assembly, solved.chains, extraOf),
  }
}

/** How often the area changes from one step to the next, over all walks. */
function countMoves(walks: readonly Walk[]): number {
  const areas = walks.flatMap((walk) => walk.steps.map((step) => step.area))
  return areas.filter((area, i) => i > 0 && area !== areas[i - 1]).length
}

function passLengths(graph: RouteGraph, walks: readonly Walk[]): { travelMm: number; overlapMm: number } {
  const seen = new Uint8Array(graph.edges.length)
  let travelMm = 0
  let overlapMm = 0
  for (const walk of walks)
    for (const { edge } of walk.steps) {
      const { required, length } = graph.edges[edge]!
      if (!required) travelMm += length
      else if (seen[edge]) overlapMm += length
      seen[edge] = 1
    }
  return { travelMm, overlapMm }
}

function reportAreas(assembly: Assembly, chains: readonly Chain[], extra: Float64Array): AreaReport[] {
  const required = new Float64Array(extra.length)
  const bound = new Float64Array(extra.length)
  for (const { works, stages } of chains)
    works.forEach(({ area, pieces }, s) => {
      bound[area]! += stages[s]!.parityBound
      for (const e of pieces) required[area]! += assembly.graph.edges[e]!.length
    })
  return Array.from(extra, (x, a) => ({
    required: required[a]!,
    extra: x / 1000,
    parityBound: bound[a]! / 1000,
  }))
}
