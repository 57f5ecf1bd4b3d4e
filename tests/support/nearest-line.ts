import { distanceToLine, type Point } from '../../src/geometry/point.ts'
import { type Box, boundsOf } from '../../src/geometry/stroke.ts'

interface Stretch {
  readonly points: readonly Point[]
  readonly box: Box
}

/** Segments looked at together. */
const STRETCH = 32

/** Cuts polylines into short stretches with a box each. */
function stretchesOf(polylines: readonly (readonly Point[])[]): Stretch[] {
  return polylines.flatMap((line) => {
    const stretches: Stretch[] = []
    for (let i = 0; i < line.length - 1; i += STRETCH) {
      const points = line.slice(i, i + STRETCH + 1)
      stretches.push({ points, box: boundsOf(points) })
    }
    return stretches
  })
}

/** The furthest that any of `from` lies from the polylines, mm. */
export function furthestFrom(polylines: readonly (readonly Point[])[], from: Iterable<Point>): number {
  const stretches = stretchesOf(polylines)
  let worst = 0
  for (const p of from) {
    let best = Infinity
    for (const { points, box } of stretches) {
      if (distanceToBox(p, box) >= best) continue
      for (let i = 1; i < points.length; i++)
        best = Math.min(best, distanceToLine(p, points[i - 1]!, points[i]!))
    }
    worst = Math.max(worst, best)
  }
  return worst
}

const distanceToBox = ([x, y]: Point, box: Box): number =>
  Math.hypot(Math.max(box.minX - x, 0, x - box.maxX), Math.max(box.minY - y, 0, y - box.maxY))
