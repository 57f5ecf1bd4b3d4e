import { add, cross, distance, dot, type Point, scale, subtract, unit } from '../geometry/point.ts'
import type { Circle } from './circle-columns.ts'

/** The triangle between a strip's square end and its mitre: from the inner corner up to the outer edge. */
export interface MitreTriangle {
  /** Where the mitre leaves the inner edge. */
  readonly inner: Point
  /** Where it meets the outer edge. */
  readonly outer: Point
  /** How far circles stay from the mitre, and from the outer edge, mm. */
  readonly fromMitre: number
  readonly fromEdge: number
}

/** The largest circle about `centre` that keeps clear of the mitre, the outer edge and other circles, mm. */
function roomAt(triangle: MitreTriangle, centre: Point, others: readonly Circle[]): number {
  const along = unit(subtract(triangle.outer, triangle.inner))
  const toMitre = cross(along, subtract(centre, triangle.inner)) - triangle.fromMitre
  const toEdge = triangle.outer[1] - centre[1] - triangle.fromEdge
  return Math.min(toMitre, toEdge, ...others.map((c) => distance(c.centre, centre) - c.radius))
}

/**
 * The largest circle clear of the others whose foot on the mitre lies between two shares of the mitre's length, by
 * search on a grid that is refined round the best.
 */
export function largestAtMitre(
  triangle: MitreTriangle,
  others: readonly Circle[],
  share: readonly [from: number, to: number],
): Circle {
  const chord = subtract(triangle.outer, triangle.inner)
  const along = unit(chord)
  const inward: Point = [-along[1], along[0]]
  const length = dot(along, chord)
  const centreAt = (s: number, r: number) =>
    add(add(triangle.inner, scale(along, s * length)), scale(inward, r))
  let best: Circle = { centre: triangle.inner, radius: 0 }
  let [s, r] = [(share[0] + share[1]) / 2, length / 4]
  let [ds, dr] = [(share[1] - share[0]) / 2, length / 4]
  for (let round = 0; round < 8; round++) {
    for (let i = -8; i <= 8; i++)
      for (let j = -8; j <= 8; j++) {
        const at = Math.min(share[1], Math.max(share[0], s + (i / 8) * ds))
        const centre = centreAt(at, r + (j / 8) * dr)
        const radius = centre[0] < triangle.inner[0] ? 0 : roomAt(triangle, centre, others)
        if (radius > best.radius) best = { centre, radius }
      }
    const offset = subtract(best.centre, triangle.inner)
    ;[s, r] = [dot(along, offset) / length, dot(inward, offset)]
    ;[ds, dr] = [ds / 3, dr / 3]
  }
  return best
}

/** The shares of the mitre's length at which a circle's foot on it begins and ends. */
export function footOf(triangle: MitreTriangle, circle: Circle): readonly [from: number, to: number] {
  const chord = subtract(triangle.outer, triangle.inner)
  const length = Math.hypot(...chord)
  const s = dot(unit(chord), subtract(circle.centre, triangle.inner)) / length
  return [s - (0.5 * circle.radius) / length, s + (0.5 * circle.radius) / length]
}
