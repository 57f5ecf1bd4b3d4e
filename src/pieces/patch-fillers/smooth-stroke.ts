import { add, distance, type Point, scale, subtract, unit } from '../../geometry/point.ts'
import { cubic } from '../../geometry/segment.ts'
import type { Stroke } from '../../geometry/stroke.ts'

/**
 * A smooth stroke through points. Precondition: neighbours lie apart.
 *
 * @source cubic Hermite spline; the tangent at a point is that of the circle through it and its neighbours (Bessel),
 *   handles a third of the chord
 */
export function smoothStroke(points: readonly Point[]): Stroke {
  const tangents = points.map((p, i) => tangentAt(points[i - 1], p, points[i + 1]))
  const segments = points.slice(1).map((to, i) => {
    const from = points[i]!
    const handle = distance(from, to) / 3
    return cubic(add(from, scale(tangents[i]!, handle)), subtract(to, scale(tangents[i + 1]!, handle)), to)
  })
  return { start: points[0]!, segments }
}

function tangentAt(before: Point | undefined, p: Point, after: Point | undefined): Point {
  if (!before) return unit(subtract(after!, p))
  if (!after) return unit(subtract(p, before))
  const [a, b] = [subtract(p, before), subtract(after, p)]
  const [la, lb] = [distance(before, p), distance(p, after)]
  return unit(add(scale(a, lb / la), scale(b, la / lb)))
}

/** The points without those that lie on the one before. */
export function distinctPoints(points: readonly Point[]): Point[] {
  const kept: Point[] = []
  for (const p of points) if (kept.length === 0 || distance(kept.at(-1)!, p) > 1e-3) kept.push(p)
  return kept
}
