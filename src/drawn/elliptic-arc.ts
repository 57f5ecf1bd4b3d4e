import { type Affine, applyAffine, compose, rotation, scaling, translation } from '../geometry/affine.ts'
import type { Point } from '../geometry/point.ts'
import { arcToCubics, line, type Segment } from '../geometry/segment.ts'
import { transformStroke } from '../geometry/stroke.ts'

/** An arc of an ellipse as SVG writes it, but for its ends. */
export interface EllipticArc {
  readonly radii: Point
  /** How far the ellipse is turned, radians. */
  readonly turn: number
  readonly isLarge: boolean
  /** As seen on the screen (y down). */
  readonly isClockwise: boolean
}

/**
 * The cubics that follow an arc of an ellipse from one point to another; a line if a radius is nothing.
 *
 * @source SVG 2, B.2.4 from ends to centre, and B.2.5 for radii that are too small
 */
export function ellipticArc(
  from: Point,
  to: Point,
  { radii, turn, isLarge, isClockwise }: EllipticArc,
): Segment[] {
  if (from[0] === to[0] && from[1] === to[1]) return []
  let [rx, ry] = [Math.abs(radii[0]), Math.abs(radii[1])]
  if (rx === 0 || ry === 0) return [line(to)]
  const half = applyAffine(rotation(-turn), [(from[0] - to[0]) / 2, (from[1] - to[1]) / 2])
  const size = Math.hypot(half[0] / rx, half[1] / ry)
  if (size > 1) [rx, ry] = [rx * size, ry * size]
  // In the frame where the ellipse is the unit circle about its centre.
  const [hx, hy] = [half[0] / rx, half[1] / ry]
  const squared = hx * hx + hy * hy
  const away = (isLarge === isClockwise ? -1 : 1) * Math.sqrt(Math.max(0, 1 / squared - 1))
  const [cx, cy] = [away * hy, -away * hx]
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
  const place: Affine = compose(
    compose(translation(cx, cy), scaling(rx, ry)),
    compose(rotation(turn), translation(middle[0], middle[1])),
  )
  const [start, end]: [Point, Point] = [
    [hx - cx, hy - cy],
    [-hx - cx, -hy - cy],
  ]
  const swept = Math.atan2(end[1], end[0]) - Math.atan2(start[1], start[0])
  const sweep = isClockwise ? (swept + 4 * Math.PI) % (2 * Math.PI) : (swept - 4 * Math.PI) % (2 * Math.PI)
  const round = { kind: 'arc', to: end, centre: [0, 0], sweep } as const
  const cubics = transformStroke({ start, segments: arcToCubics(start, round) }, place).segments
  return [...cubics.slice(0, -1), withEnd(cubics.at(-1)!, to)]
}

/** The segment with its end where it is asked for, not a rounding beside it. */
const withEnd = (segment: Segment, to: Point): Segment => ({ ...segment, to })
