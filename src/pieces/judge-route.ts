import { polylineOf } from '../check/polyline.ts'
import { countRepositions } from '../check/repositions.ts'
import { sumTurning } from '../check/turning.ts'
import type { Point } from '../geometry/point.ts'
import { flattenStroke, reverseStroke } from '../geometry/stroke.ts'
import { ROUTE_WEIGHTS, type RouteResult, type Walk } from '../route/index.ts'
import { type Net, seamCourse } from './net.ts'
import { MOVES_CHORD, pieceChords } from './piece-chords.ts'
import type { Pieces, Reach } from './pieces.ts'

/** What turning the quilt costs. */
export interface TurningWeight {
  /** How wide the comfortable directions of the line spread, radians. */
  readonly sector: number
  /** What a full turn of the quilt weighs, in moves of the quilt. */
  readonly weight: number
}

/** What speaks for or against a route. */
export interface RouteFigures {
  readonly starts: number
  /** Price of its extra passes. */
  readonly extra: number
  /** Moves of the quilt. */
  readonly moves: number
  /** Full turns of the quilt, where they are asked for. */
  readonly turns: number
}

/** What a route costs, mm of travel; a full turn weighs as many moves as `turning` says. */
export const costOfRoute = ({ starts, extra, moves, turns }: RouteFigures, turning = 0): number =>
  ROUTE_WEIGHTS.start * starts + extra + ROUTE_WEIGHTS.reposition * (moves + turning * turns)

/**
 * Measures routes: their starts, their extra passes, and the moves of the quilt as counted on the line itself; if that is
 * asked for, how much the quilt is turned as well.
 */
export function measureRoutes({
  pieces,
  net,
  reach,
  turning,
  chords = pieceChords(pieces),
}: {
  pieces: Pieces
  net: Net
  reach: Reach
  /** The pieces' chords, if they are at hand. */
  chords?: readonly (readonly Point[])[]
  turning?: TurningWeight | undefined
}) {
  const known = new WeakMap<RouteResult['walks'], RouteFigures>()
  const measure = ({ walks, extra }: Pick<RouteResult, 'walks' | 'extra'>): RouteFigures => {
    const lines = walks.map((walk) => polylineOf(pointsOf(walk, { chords, net })))
    const moves = countRepositions(lines, { width: reach[0], height: reach[1] }).length
    const turns = turning ? sumTurning(lines, turning.sector) : 0
    return { starts: walks.length, extra, moves, turns }
  }
  return (route: Pick<RouteResult, 'walks' | 'extra'>): RouteFigures => {
    const figures = known.get(route.walks) ?? measure(route)
    known.set(route.walks, figures)
    return figures
  }
}

function pointsOf(
  { steps }: Walk,
  { chords, net }: { chords: readonly (readonly Point[])[]; net: Net },
): Point[] {
  const points: Point[] = []
  for (const { edge, forward } of steps) {
    const piece = chords[edge]
    if (!piece) {
      const course = seamCourse(net.seams[edge - chords.length]!, net.positions)
      points.push(...flattenStroke(forward ? course : reverseStroke(course), MOVES_CHORD))
    } else if (forward) for (const p of piece) points.push(p)
    else for (let i = piece.length - 1; i >= 0; i--) points.push(piece[i]!)
  }
  return points
}
