import { expect } from 'vitest'
import { distance, type Point } from '../../src/geometry/point.ts'
import type { Stroke } from '../../src/geometry/stroke.ts'

/** Fails unless every point of the stroke is finite and every arc really ends where it says. */
export function assertValidStroke(stroke: Stroke): void {
  let from: Point = stroke.start
  stroke.segments.forEach((segment, i) => {
    expect(Number.isFinite(segment.to[0]) && Number.isFinite(segment.to[1]), `segment ${i} is finite`).toBe(
      true,
    )
    if (segment.kind === 'arc') {
      const [c, s] = [Math.cos(segment.sweep), Math.sin(segment.sweep)]
      const [x, y] = [from[0] - segment.centre[0], from[1] - segment.centre[1]]
      const end: Point = [segment.centre[0] + c * x - s * y, segment.centre[1] + s * x + c * y]
      expect(distance(end, segment.to), `arc ${i} ends where it says`).toBeLessThan(1e-6)
    }
    from = segment.to
  })
}

/** The greatest distance from points of `a` to the chain of chords of `b`, mm. */
export function strayOf(a: readonly Point[], b: readonly Point[]): number {
  let worst = 0
  for (const p of a) {
    let least = Number.POSITIVE_INFINITY
    for (let i = 1; i < b.length; i++) least = Math.min(least, distanceToChord(p, b[i - 1]!, b[i]!))
    worst = Math.max(worst, least)
  }
  return worst
}

function distanceToChord(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  const squared = dx * dx + dy * dy
  const t = squared === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared))
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy)
}
