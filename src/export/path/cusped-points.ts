import { dot, type Point } from '../../geometry/point.ts'
import { directionAt, flattenSegment } from '../../geometry/segment.ts'
import { eachSegment, type Stroke } from '../../geometry/stroke.ts'

/** A joint that turns by more than this is a cusp: a place for the needle, never rounded off. */
const CUSP = Math.cos((15 * Math.PI) / 180)

/** A flattened stroke, and which of its points are cusps. */
export interface CuspedPoints {
  readonly points: Point[]
  /** Indices into `points`, ascending; without the ends. */
  readonly cusps: number[]
}

/**
 * The stroke as points whose chords stray from it by at most `tolerance` mm, with its cusps: the joints that turn by
 * more than 15 degrees.
 */
export function cuspedPoints(stroke: Stroke, tolerance: number): CuspedPoints {
  const points: Point[] = [stroke.start]
  const cusps: number[] = []
  let arriving: Point | undefined
  eachSegment(stroke, (from, segment) => {
    const leaving = directionAt(from, segment, 0)
    if (arriving && dot(arriving, leaving) < CUSP) cusps.push(points.length - 1)
    flattenSegment(from, segment, tolerance, points)
    arriving = directionAt(from, segment, 1)
  })
  return { points, cusps }
}
