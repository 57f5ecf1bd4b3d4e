import { ROUTE_WEIGHTS, type RouteGraph, type RouteResult, solveByAreas } from '../route/index.ts'
import { askDitches } from './ask-ditches.ts'
import { type Frame, type FramePass, framePasses, PASS_CUTS, passStartsBound } from './frame-passes.ts'
import { refuseFrameEnds, refuseFrameWishes } from './frame-wishes.ts'
import { type Net, type SeamEdge, tieNet } from './net.ts'
import type { Piece } from './pieces.ts'
import { type LineTask, ON_FRAME, type PlannedLine, threadWalks } from './plan-line.ts'
import { routeGraph } from './route-graph.ts'
import { orderThreads, type ThreadTurn } from './thread-order.ts'

/** The work with one thread over some passes of a frame that follow each other. */
export interface FrameTurn extends PlannedLine {
  readonly thread: string
  /** The fewest starts that these passes need. */
  readonly startsBound: number
  /** The pass in which each of its areas lies. */
  readonly passOf: readonly number[]
}

/** The work on a frame with several threads. */
export interface FrameTurns {
  readonly turns: readonly FrameTurn[]
  readonly passes: readonly FramePass[]
}

/** An advance of the frame takes about as long as three moves of the quilt. */
const ADVANCE = 3 * ROUTE_WEIGHTS.reposition

/**
 * Plans a frame's passes with several threads: a pass is stitched with all its threads before the quilt is rolled on, and
 * the thread that ends it begins the next.
 *
 * @param threadOf  the thread of a piece's band, or of a seam that is stitched in the ditch
 * @throws PlanError `route/throat` if a piece is deeper than the throat, `route/frame` for what a frame can't do
 */
export function planFrameThreads(
  task: LineTask,
  frame: Frame,
  threadOf: (part: Piece | SeamEdge) => string,
): FrameTurns {
  const { quilt, pieces, wishes } = task
  refuseFrameWishes(wishes)
  refuseFrameEnds(wishes)
  const net = askDitches(tieNet(quilt, pieces), pieces, wishes.ditch)
  const threads = [
    ...pieces.pieces.map(threadOf),
    ...net.seams.map((seam) => (seam.ditch === undefined ? undefined : threadOf(seam))),
  ]
  const tried = PASS_CUTS.map((cut) => {
    const passes = framePasses({ pieces, net }, frame, cut)
    const used = passes.map(({ area }) => [...new Set(area.required.map((edge) => threads[edge]!))])
    const turns = orderThreads(used).map((turn) => planTurn(turn, { task, net, passes, threads }))
    const walks = turns.reduce(
      (sum, { route }) => sum + ROUTE_WEIGHTS.start * route.walks.length + route.extra,
      0,
    )
    return { turns, passes, cost: walks + ADVANCE * passes.length }
  })
  const { cost: _, ...best } = tried.reduce((best, next) => (next.cost < best.cost ? next : best))
  return best
}

interface Whole {
  readonly task: LineTask
  /** Of all threads together: seams are cut wherever anything touches them. */
  readonly net: Net
  readonly passes: readonly FramePass[]
  /** The thread of each edge that must be stitched. */
  readonly threads: readonly (string | undefined)[]
}

function planTurn({ thread, passes }: ThreadTurn, { task, net, ...whole }: Whole): FrameTurn {
  const { pieces } = task
  const strips = passes.map((pass) => whole.passes[pass]!)
  const isOwn = (edge: number) => whole.threads[edge] === thread
  const now = new Set(strips.flatMap(({ area }) => area.required.filter(isOwn)))
  const seams = net.seams.map(({ ditch, ...seam }, i) =>
    ditch !== undefined && now.has(net.fills.length + i) ? { ...seam, ditch } : seam,
  )
  const own = { ...net, seams }
  const { graph, numberOf, edgeOf } = without(
    routeGraph(own, pieces),
    (e) => e < net.fills.length && !now.has(e),
  )
  const areas = strips.map((strip): FramePass => {
    const required = strip.area.required.filter((edge) => now.has(edge))
    const others = strip.area.required.filter((edge) => !now.has(edge) && edge >= net.fills.length)
    const travel = [...strip.area.travel, ...others]
    return { ...strip, area: { required: required.map(numberOf), travel: travel.map(numberOf) } }
  })
  const plan = areas.map(({ area }) => area)
  const route = solveByAreas(graph, { plans: [plan], seed: task.seed, order: 'strict' })
  const walks: RouteResult['walks'] = route.walks.map((walk) => ({
    ...walk,
    steps: walk.steps.map((step) => ({ ...step, edge: edgeOf(step.edge) })),
  }))
  const back = areas.map(({ area, ...strip }) => ({
    ...strip,
    area: { required: area.required.map(edgeOf), travel: area.travel.map(edgeOf) },
  }))
  return {
    thread,
    net: own,
    graph,
    areas: plan,
    route: { ...route, walks },
    strategy: ON_FRAME,
    lines: threadWalks(walks, { pieces, net: own, thread }),
    startsBound: passStartsBound(back, own),
    passOf: passes,
  }
}

/** A graph without some of its edges, and the numbers of the others in it and back. */
function without(graph: RouteGraph, isOut: (edge: number) => boolean) {
  const kept = graph.edges.flatMap((_, edge) => (isOut(edge) ? [] : [edge]))
  const numbers = new Map(kept.map((edge, number) => [edge, number]))
  return {
    graph: { ...graph, edges: kept.map((edge) => graph.edges[edge]!) },
    numberOf: (edge: number) => numbers.get(edge)!,
    edgeOf: (number: number) => kept[number]!,
  }
}
