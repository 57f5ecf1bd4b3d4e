import { type Affine, applyAffine, compose, rotation, scaling, translation } from '../../geometry/affine.ts'
import type { Point } from '../../geometry/point.ts'
import { type Box, boundsOf } from '../../geometry/stroke.ts'
import { flipY } from '../flip.ts'

/** Where the origin lies on the turned box. */
export const ORIGINS = ['bottom-left', 'bottom-right', 'top-left', 'top-right', 'centre'] as const
type Origin = (typeof ORIGINS)[number]

/** About which axis a path is mirrored. */
export const MIRRORS = ['none', 'left-right', 'top-bottom'] as const
type Mirror = (typeof MIRRORS)[number]

/** How a path lies on a machine's table. */
export interface PlacementChoice {
  readonly mirror: Mirror
  /** Degrees clockwise as seen on the quilt. */
  readonly turn: number
  readonly origin: Origin
  readonly yAxis: 'up' | 'down'
}

/** The corners of a box, clockwise on the screen from the top left. */
export const cornersOf = (box: Box): Point[] => [
  [box.minX, box.minY],
  [box.maxX, box.minY],
  [box.maxX, box.maxY],
  [box.minX, box.maxY],
]

/** First mirrored, then turned about the quilt's own origin. Directions only; `originShift` places it. */
export function turning(choice: Pick<PlacementChoice, 'mirror' | 'turn'>): Affine {
  const mirror = scaling(choice.mirror === 'left-right' ? -1 : 1, choice.mirror === 'top-bottom' ? -1 : 1)
  return compose(mirror, quarterExact(choice.turn))
}

/** A turn whose sines and cosines are exact for quarter turns. */
function quarterExact(degrees: number): Affine {
  const quarters = degrees / 90
  if (!Number.isInteger(quarters)) return rotation((degrees * Math.PI) / 180)
  const [c, s] = (
    [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ] as const
  )[((quarters % 4) + 4) % 4]!
  return { a: c, b: s, c: -s, d: c, e: 0, f: 0 }
}

/**
 * The map from the quilt (mm, y down) onto the machine's table (mm): mirrored, turned, the chosen corner of the box
 * round `outline` put on the origin, y turned upward if asked for.
 *
 * @param outline  the points whose box gives the corners, in quilt coordinates
 */
export function placement(outline: readonly Point[], choice: PlacementChoice): Affine {
  const turned = turning(choice)
  const [x, y] = originOn(boundsOf(outline.map((p) => applyAffine(turned, p))), choice.origin)
  const placed = compose(turned, translation(-x, -y))
  return choice.yAxis === 'up' ? compose(placed, flipY(0)) : placed
}

function originOn(box: Box, origin: Origin): Point {
  if (origin === 'centre') return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]
  return [origin.endsWith('left') ? box.minX : box.maxX, origin.startsWith('top') ? box.minY : box.maxY]
}
