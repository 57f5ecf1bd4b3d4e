import { add, cross, distance, dot, type Point, scale, subtract, unit } from '../geometry/point.ts'
import { type Stroke, StrokeBuilder } from '../geometry/stroke.ts'

/** Whether the path runs straight on at `b`. */
const isStraight = (a: Point, b: Point, c: Point): boolean =>
  Math.abs(cross(unit(subtract(b, a)), unit(subtract(c, b)))) < 1e-9

/** Tangent of half the turn between two unit directions: an arc begins so many radii before the corner. */
const tangentOfHalfTurn = (into: Point, out: Point): number =>
  Math.abs(cross(into, out)) / Math.max(1 + dot(into, out), Number.MIN_VALUE)

/**
 * The path through `points` with its corners rounded by arcs.
 *
 * @param radius  the distance from a corner at which its arc begins, if there is room, mm; at a sharp corner it begins
 *                farther off, so that the arc's own radius is not under a quarter of that
 */
export function roundedPath(points: readonly Point[], radius: number): Stroke {
  const corners = points.filter((p, i) => {
    const [a, c] = [points[i - 1], points[i + 1]]
    return !a || !c || !isStraight(a, p, c)
  })
  const builder = new StrokeBuilder(corners[0]!)
  for (let i = 1; i + 1 < corners.length; i++) {
    const [a, b, c] = [corners[i - 1]!, corners[i]!, corners[i + 1]!]
    const [into, out] = [unit(subtract(b, a)), unit(subtract(c, b))]
    const wanted = Math.max(radius, (radius / 4) * tangentOfHalfTurn(into, out))
    const cut = Math.min(wanted, distance(a, b) / 2, distance(b, c) / 2)
    builder.lineTo(subtract(b, scale(into, cut)))
    builder.arcAlong(into, add(b, scale(out, cut)))
  }
  return builder.lineTo(corners.at(-1)!).build()
}
