import type { Quilt } from '../quilt/quilt.ts'
import { type RouteGraph, type RouteResult, solveByAreas } from '../route/index.ts'
import type { Line } from '../stitch/line.ts'
import { type AreaOrder, areaOrders, type Direction } from './areas.ts'
import { judgeRoutes } from './judge-route.ts'
import { lapOrders } from './lap-orders.ts'
import { type Net, tieNet } from './net.ts'
import type { Pieces, Reach } from './pieces.ts'
import { placeVertex, type WantedPlace } from './place-vertex.ts'
import { routeGraph } from './route-graph.ts'
import { threadLine } from './thread-line.ts'

/** What a quilter may ask of the line's way. */
export interface Wishes {
  readonly start: WantedPlace
  readonly end: WantedPlace
  readonly order: Direction
  /** Area by area, or a lap per band. */
  readonly work: 'areas' | 'laps'
}

/** Nothing asked for: the cheapest line, area by area. */
export const NO_WISHES: Wishes = {
  start: { kind: 'anywhere' },
  end: { kind: 'anywhere' },
  order: 'any',
  work: 'areas',
}

/** What the line is planned over. */
export interface LineTask {
  readonly quilt: Quilt
  readonly pieces: Pieces
  /** What is stitched without moving the quilt, mm. */
  readonly reach: Reach
  readonly wishes: Wishes
  /** CSS colour of the thread. */
  readonly thread: string
  readonly seed: number
}

/** A planned line with all that it was planned from. */
export interface PlannedLine {
  readonly net: Net
  readonly graph: RouteGraph
  /** The order of work that was taken. */
  readonly areas: AreaOrder
  readonly route: RouteResult
  /** One entry a thread start. */
  readonly lines: readonly Line[]
}

/**
 * Finds the line through all pieces: ties them to the seams, lists the orders of work that the wishes allow, and takes
 * the cheapest route.
 *
 * @throws PlanError `route/place` for a start or end where nothing is stitched, and the codes of `solveByAreas`
 */
export function planLine(task: LineTask): PlannedLine {
  const { quilt, pieces, wishes, seed, thread } = task
  const net = tieNet(quilt, pieces)
  const graph = routeGraph(net, pieces)
  const orders = ordersFor(task, net)
  const start = placeVertex(wishes.start, { quilt, pieces, net }, 'route.start')
  const end = placeVertex(wishes.end, { quilt, pieces, net }, 'route.end')
  const ends = { ...(start !== undefined && { start }), ...(end !== undefined && { end }) }
  const judge = judgeRoutes({ pieces, net, reach: task.reach })
  const route = solveByAreas(graph, { plans: orders, seed, judge, ...ends })
  const lines = route.walks.map((walk) => threadLine(walk.steps, { pieces, net, thread }))
  return { net, graph, areas: orders[route.plan]!, route, lines }
}

function ordersFor({ quilt, pieces, wishes }: LineTask, net: Net): AreaOrder[] {
  if (wishes.work === 'laps') return lapOrders({ pieces, net, quilt }, wishes.order)
  return areaOrders(pieces, net, wishes.order)
}
