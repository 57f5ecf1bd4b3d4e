import { add, cross, distance, type Point, scale, subtract, unit } from '../geometry/point.ts'
import { type Stroke, StrokeBuilder } from '../geometry/stroke.ts'

/** Whether the path runs straight on at `b`. */
const isStraight = (a: Point, b: Point, c: Point): boolean =>
  Math.abs(cross(unit(subtract(b, a)), unit(subtract(c, b)))) < 1e-9

/**
 * The path through `points` with its corners rounded by arcs.
 *
 * @param radius  the greatest distance from a corner at which its arc begins, mm
 */
export function roundedPath(points: readonly Point[], radius: number): Stroke {
  const corners = points.filter((p, i) => {
    const [a, c] = [points[i - 1], points[i + 1]]
    return !a || !c || !isStraight(a, p, c)
  })
  const builder = new StrokeBuilder(corners[0]!)
  for (let i = 1; i + 1 < corners.length; i++) {
    const [a, b, c] = [corners[i - 1]!, corners[i]!, corners[i + 1]!]
    const cut = Math.min(radius, distance(a, b) / 2, distance(b, c) / 2)
    const [into, out] = [unit(subtract(b, a)), unit(subtract(c, b))]
    builder.lineTo(subtract(b, scale(into, cut)))
    builder.arcAlong(into, add(b, scale(out, cut)))
  }
  return builder.lineTo(corners.at(-1)!).build()
}
