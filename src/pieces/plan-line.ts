import type { Point } from '../geometry/point.ts'
import type { Quilt } from '../quilt/quilt.ts'
import { ROUTE_WEIGHTS, type RouteGraph, type RouteResult, solveByAreas } from '../route/index.ts'
import type { Line } from '../stitch/line.ts'
import { type AreaOrder, areaOrders, type Direction } from './areas.ts'
import { askDitches, ditchesFirst, type WantedDitch } from './ask-ditches.ts'
import { chooseWork, movesOfLaps, type Strategy } from './choose-work.ts'
import { type Frame, type FramePass, framePasses, PASS_CUTS, passStartsBound } from './frame-passes.ts'
import { frameEnds, refuseFrameWishes } from './frame-wishes.ts'
import { costOfRoute, measureRoutes, type TurningWeight } from './judge-route.ts'
import { lapOrders } from './lap-orders.ts'
import { type Net, tieNet } from './net.ts'
import { pieceChords } from './piece-chords.ts'
import type { Pieces, Reach } from './pieces.ts'
import { placeVertex, type WantedPlace } from './place-vertex.ts'
import { routeGraph } from './route-graph.ts'
import { threadLine } from './thread-line.ts'
import { withWayIn, withWayOut } from './way-in.ts'

/** What a quilter may ask of the line's way. */
export interface Wishes {
  readonly start: WantedPlace
  readonly end: WantedPlace
  readonly order: Direction
  /** Area by area, a lap per band, or whichever costs less. */
  readonly work: 'any' | 'areas' | 'laps'
  /** Seams to be stitched in the ditch, as part of the line. */
  readonly ditch: readonly WantedDitch[]
  /** When they are: before everything else, along the way, or whichever costs less. */
  readonly ditchOrder?: 'any' | 'first' | 'along'
  /** Where only some directions are comfortable: what turning the quilt weighs. */
  readonly turning?: TurningWeight
  /** On a frame: strip by strip down the quilt, whatever else is asked of the order. */
  readonly frame?: Frame
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
  /** How the work is divided, and why so. */
  readonly strategy: Strategy
  /** One entry a thread start. */
  readonly lines: readonly Line[]
  /** On a frame, the passes, and the fewest starts that they need. */
  readonly frame?: { readonly passes: readonly FramePass[]; readonly startsBound: number }
}

/**
 * Finds the line through all pieces: ties them to the seams, lists the orders of work that the wishes allow, and takes
 * the cheapest route.
 *
 * @throws PlanError `route/place` for a start or end where nothing is stitched, and the codes of `solveByAreas`
 */
export function planLine(task: LineTask): PlannedLine {
  const { quilt, pieces, wishes, seed } = task
  const net = askDitches(tieNet(quilt, pieces), pieces, wishes.ditch)
  const graph = routeGraph(net, pieces)
  const thread = (walks: RouteResult['walks']) => threadWalks(walks, { pieces, net, thread: task.thread })
  if (wishes.frame) {
    refuseFrameWishes(wishes)
    const { route, ...frame } = bestPasses(graph, { task, net, frame: wishes.frame })
    const areas = frame.passes.map(({ area }) => area)
    return { net, graph, areas, route, strategy: ON_FRAME, lines: thread(route.walks), frame }
  }
  const start = placeVertex(wishes.start, { quilt, pieces, net }, 'route.start')
  const end = placeVertex(wishes.end, { quilt, pieces, net }, 'route.end')
  const ends = { ...(start !== undefined && { start }), ...(end !== undefined && { end }) }
  const { areas, route, strategy } = bestWork(task, net, (orders, judge) => {
    const begun = start === undefined ? orders : withWayIn(orders, graph, start)
    const plans = end === undefined ? begun : withWayOut(begun, graph, end)
    const found = solveByAreas(graph, { plans, seed, judge, ...ends })
    return { route: found, areas: plans[found.plan]! }
  })
  return { net, graph, areas, route, strategy, lines: thread(route.walks) }
}

/** What a frame leaves no choice of. */
export const ON_FRAME: Strategy = { way: 'frame', why: 'a frame is worked strip by strip' }

type Solve = (
  plans: readonly AreaOrder[],
  judge: (route: Pick<RouteResult, 'walks' | 'extra'>) => number,
) => Pick<PlannedLine, 'route' | 'areas'>

/** The line worked as the wishes ask: area by area, lap by lap, or the better of the two. */
function bestWork(task: LineTask, net: Net, solve: Solve) {
  const { pieces, wishes, reach } = task
  const turning = wishes.turning?.weight ?? 0
  const chords = pieceChords(pieces)
  const measure = measureRoutes({ pieces, net, reach, chords, turning: wishes.turning })
  const plan = (way: 'areas' | 'laps') => {
    const judge = (walked: Parameters<typeof measure>[0]) => costOfRoute(measure(walked), turning)
    const solved = solve(ordersFor(task, net, { way, chords }), judge)
    return { ...solved, figures: measure(solved.route) }
  }
  // Where no bands are woven together, areas are parts of laps anyway.
  const hasLaps = pieces.groups.some(({ count, pieced }) => count + pieced.length > 1)
  const work = hasLaps || wishes.work !== 'any' ? wishes.work : 'areas'
  if (work === 'any')
    return chooseWork(plan('areas'), {
      lapMoves: movesOfLaps(pieces, net, reach),
      turning,
      planLaps: () => plan('laps'),
    })
  const why = wishes.work === 'any' ? 'no bands are woven together' : 'the plan asks for it'
  return { ...plan(work), strategy: { way: work, why } }
}

/** The walks as lines of one thread. */
export const threadWalks = (
  walks: RouteResult['walks'],
  work: { pieces: Pieces; net: Net; thread: string },
): Line[] => walks.map((walk) => threadLine(walk.steps, work))

/** An advance of the frame takes about as long as three moves of the quilt. */
const ADVANCE = 3 * ROUTE_WEIGHTS.reposition

/** The cheaper way to divide the work into passes, in starts, extra passes of the line, and advances. */
function bestPasses(graph: RouteGraph, { task, net, frame }: { task: LineTask; net: Net; frame: Frame }) {
  const { pieces, wishes, seed } = task
  const tried = PASS_CUTS.map((cut) => {
    const passes = framePasses({ pieces, net }, frame, cut)
    const plan = passes.map(({ area }) => area)
    const ends = frameEnds(wishes, { ...task, net }, passes)
    const route = solveByAreas(graph, { plans: [plan], seed, order: 'strict', ...ends })
    const cost = ROUTE_WEIGHTS.start * route.walks.length + route.extra + ADVANCE * passes.length
    return { route, passes, startsBound: passStartsBound(passes, net), cost }
  })
  const { cost: _, ...best } = tried.reduce((best, next) => (next.cost < best.cost ? next : best))
  return best
}

function ordersFor(
  { pieces, wishes, reach }: LineTask,
  net: Net,
  { way, chords }: { way: 'areas' | 'laps'; chords: readonly (readonly Point[])[] },
): AreaOrder[] {
  const orders =
    way === 'laps'
      ? lapOrders(pieces, net, wishes.order)
      : areaOrders(pieces, net, { direction: wishes.order, reach, chords })
  const { ditch, ditchOrder = 'any' } = wishes
  if (ditch.length === 0 || ditchOrder === 'along') return orders
  const first = ditchesFirst(orders, net, ditch)
  return ditchOrder === 'first' ? first : [...orders, ...first]
}
