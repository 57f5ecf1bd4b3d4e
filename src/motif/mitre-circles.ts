import { dot, type Point, subtract, unit } from '../geometry/point.ts'
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

/**
 * The largest circle clear of the others whose foot on the mitre lies between two shares of the mitre's length, by
 * search on a grid that is refined round the best.
 */
export function largestAtMitre(
  triangle: MitreTriangle,
  others: readonly Circle[],
  share: readonly [from: number, to: number],
): Circle {
  const { inner, outer, fromMitre, fromEdge } = triangle
  const chord = subtract(outer, inner)
  const [ax, ay] = unit(chord)
  const length = dot([ax, ay], chord)
  // Very many places are tried: plain numbers, and what is no better than the best is left at once.
  let best = { x: inner[0], y: inner[1], radius: 0 }
  const tryAt = (at: number, away: number) => {
    const x = inner[0] + ax * at * length - ay * away
    const y = inner[1] + ay * at * length + ax * away
    let radius = Math.min(away - fromMitre, outer[1] - y - fromEdge)
    for (let k = 0; k < others.length && radius > best.radius; k++) {
      const { centre, radius: taken } = others[k]!
      radius = Math.min(radius, Math.sqrt((centre[0] - x) ** 2 + (centre[1] - y) ** 2) - taken)
    }
    if (x >= inner[0] && radius > best.radius) best = { x, y, radius }
  }
  let [s, r] = [(share[0] + share[1]) / 2, length / 4]
  let [ds, dr] = [(share[1] - share[0]) / 2, length / 4]
  for (let round = 0; round < 8; round++) {
    for (let i = -8; i <= 8; i++)
      for (let j = -8; j <= 8; j++)
        tryAt(Math.min(share[1], Math.max(share[0], s + (i / 8) * ds)), r + (j / 8) * dr)
    const [dx, dy] = [best.x - inner[0], best.y - inner[1]]
    ;[s, r] = [(ax * dx + ay * dy) / length, ax * dy - ay * dx]
    ;[ds, dr] = [ds / 3, dr / 3]
  }
  return { centre: [best.x, best.y], radius: best.radius }
}

/** The shares of the mitre's length at which a circle's foot on it begins and ends. */
export function footOf(triangle: MitreTriangle, circle: Circle): readonly [from: number, to: number] {
  const chord = subtract(triangle.outer, triangle.inner)
  const length = Math.hypot(...chord)
  const s = dot(unit(chord), subtract(circle.centre, triangle.inner)) / length
  return [s - (0.5 * circle.radius) / length, s + (0.5 * circle.radius) / length]
}
