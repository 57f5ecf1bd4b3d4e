import { meanOf, type Point } from '../geometry/point.ts'
import { ROUTE_WEIGHTS, type RouteResult } from '../route/index.ts'
import type { AreaOrder } from './areas.ts'
import { costOfRoute, type RouteFigures } from './judge-route.ts'
import type { Net } from './net.ts'
import type { Pieces, Reach } from './pieces.ts'

/** How the work is divided, and why so. */
export interface Strategy {
  readonly way: 'areas' | 'laps' | 'frame'
  readonly why: string
}

/** A way to work with the line that it gives. */
export interface Rival {
  readonly areas: AreaOrder
  readonly route: RouteResult
  readonly figures: RouteFigures
}

/** A fraction of a mm: what differs by less costs the same. */
const SAME = 1e-6

/** How often laps move the quilt. */
export interface LapMoves {
  /** No work lap by lap moves it less often. */
  readonly least: number
  /** About so often, where that is reckoned: laps of a large quilt take long to plan. */
  readonly likely?: number
}

/** At least this part of the moves that are reckoned can be relied on. */
const RELIED_ON = 0.85

/**
 * Area by area, unless lap by lap costs less. Laps are planned only if no bound shows that they can't, nor, where it is
 * reckoned how often they are likely to move the quilt, that they will hardly.
 *
 * @param turning  what a full turn of the quilt weighs, in moves
 */
export function chooseWork(
  byArea: Rival,
  { lapMoves, turning, planLaps }: { lapMoves: LapMoves; turning: number; planLaps: () => Rival },
): Rival & { readonly strategy: Strategy } {
  const { figures, route } = byArea
  const { least, likely = 0 } = lapMoves
  const cost = costOfRoute(figures, turning)
  const costOfLaps = (moves: number) =>
    costOfRoute({ starts: route.startsBound, extra: route.lowerBound, moves, turns: 0 })
  if (cost <= costOfLaps(least) + SAME)
    return { ...byArea, strategy: { way: 'areas', why: whyNoLaps(figures, least) } }
  if (cost <= costOfLaps(RELIED_ON * likely))
    return {
      ...byArea,
      strategy: {
        way: 'areas',
        why: `${NAMES.laps} is likely to cost more: about ${likely} moves of the quilt`,
      },
    }
  const laps = planLaps()
  if (cost <= costOfRoute(laps.figures, turning) + SAME)
    return { ...byArea, strategy: { way: 'areas', why: whyBetter(figures, laps.figures, turning) } }
  return { ...laps, strategy: { way: 'laps', why: whyBetter(laps.figures, figures, turning) } }
}

const NAMES = { areas: 'area by area', laps: 'lap by lap' } as const

const whyNoLaps = ({ moves }: RouteFigures, leastLapMoves: number): string =>
  leastLapMoves > moves
    ? `${NAMES.laps} moves the quilt at least ${leastLapMoves} times, not ${moves}`
    : `${NAMES.laps} can cost no less`

/** The figure that gains most. */
function whyBetter(best: RouteFigures, other: RouteFigures, turning: number): string {
  const moves = ROUTE_WEIGHTS.reposition
  const gains = [
    { gain: 0, what: 'it costs no more than the other way' },
    {
      gain: ROUTE_WEIGHTS.start * (other.starts - best.starts),
      what: `it needs ${best.starts} thread starts, not ${other.starts}`,
    },
    { gain: other.extra - best.extra, what: 'less is travelled and stitched over' },
    {
      gain: moves * (other.moves - best.moves),
      what: `the quilt is moved ${best.moves} times, not ${other.moves}`,
    },
    { gain: moves * turning * (other.turns - best.turns), what: 'the quilt is turned less' },
  ]
  return gains.reduce((most, next) => (next.gain > most.gain ? next : most)).what
}

/** Over so many pieces it is reckoned how often laps are likely to move the quilt. */
const MANY_PIECES = 3000

/**
 * No work lap by lap moves the quilt less often than so: a lap meets places of which no two lie within reach at once, and
 * needs a stand of the quilt for each. It is likely to need them as often as its pieces lie side by side.
 */
export function movesOfLaps(pieces: Pieces, { fills, positions }: Net, reach: Reach): LapMoves {
  const ends = new Map<number, Point[]>()
  fills.forEach(({ u, v }, i) => {
    const { band } = pieces.pieces[i]!
    const own = ends.get(band) ?? []
    ends.set(band, own)
    own.push(positions[u]!, positions[v]!)
  })
  const bands = [...ends.values()].map((points) => ({ points, stands: farApart(points, reach) }))
  const least = bands.reduce((sum, { stands }) => sum + stands - 1, 0)
  if (fills.length < MANY_PIECES) return { least }
  const likely = bands.reduce((sum, { points, stands }) => sum + stands * abreast(points) - 1, 0)
  return { least, likely: Math.round(likely) }
}

/** How many pieces lie side by side on the way round, in the mean, between these ends. */
function abreast(ends: readonly Point[]): number {
  const middle = meanOf(ends)
  const angleOf = ([x, y]: Point) => Math.atan2(y - middle[1], x - middle[0])
  let turned = 0
  for (let i = 0; i < ends.length; i += 2) {
    const between = Math.abs(angleOf(ends[i]!) - angleOf(ends[i + 1]!))
    turned += Math.min(between, 2 * Math.PI - between)
  }
  return Math.max(1, turned / (2 * Math.PI))
}

/** How many of these places lie apart, each beyond reach of all others: the first, and whatever comes next round them. */
function farApart(points: readonly Point[], [width, height]: Reach): number {
  const [midX, midY] = meanOf(points)
  const turned = points.map((point) => ({ point, angle: Math.atan2(point[1] - midY, point[0] - midX) }))
  const taken: Point[] = []
  for (const {
    point: [x, y],
  } of turned.sort((a, b) => a.angle - b.angle))
    if (taken.every((other) => Math.abs(other[0] - x) > width || Math.abs(other[1] - y) > height))
      taken.push([x, y])
  return taken.length
}
