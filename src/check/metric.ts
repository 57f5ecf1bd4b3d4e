import type { Point } from '../geometry/point.ts'
import type { Stretches } from './polyline.ts'

/** A way to measure how far a place is from stitching: round for circles, square for squares. */
export interface Metric {
  /** Distance from the middle of a square with half side 1 to its corner. */
  readonly reach: number
  /** The distance from `p` to stretch `i`, mm. */
  distance(p: Point, stretches: Stretches, i: number): number
}

/** Straight-line distance. */
export const ROUND: Metric = {
  reach: Math.SQRT2,
  distance(p, { ax, ay, bx, by }, i) {
    const px = ax[i]! - p[0]
    const py = ay[i]! - p[1]
    const dx = bx[i]! - ax[i]!
    const dy = by[i]! - ay[i]!
    const squared = dx * dx + dy * dy
    const t = squared > 0 ? clamp(-(px * dx + py * dy) / squared) : 0
    const x = px + dx * t
    const y = py + dy * t
    return Math.sqrt(x * x + y * y)
  },
}

/**
 * The greater of the distances across and down. It is convex along a stretch, so its least value lies at an end,
 * where the two are equal, or where one is zero.
 */
export const SQUARE: Metric = {
  reach: 1,
  distance(p, { ax, ay, bx, by }, i) {
    const px = ax[i]! - p[0]
    const py = ay[i]! - p[1]
    const dx = bx[i]! - ax[i]!
    const dy = by[i]! - ay[i]!
    let least = Math.min(greater(px, py), greater(px + dx, py + dy))
    if (least <= Math.max(clearance(px, px + dx), clearance(py, py + dy))) return least
    const same = dx === dy ? 0 : clamp((py - px) / (dx - dy))
    const opposite = dx === -dy ? 0 : clamp(-(px + py) / (dx + dy))
    const across = dx === 0 ? 0 : clamp(-px / dx)
    const down = dy === 0 ? 0 : clamp(-py / dy)
    least = Math.min(least, greater(px + dx * same, py + dy * same))
    least = Math.min(least, greater(px + dx * opposite, py + dy * opposite))
    least = Math.min(least, greater(px + dx * across, py + dy * across))
    return Math.min(least, greater(px + dx * down, py + dy * down))
  },
}

const greater = (x: number, y: number): number => Math.max(Math.abs(x), Math.abs(y))

/** How far zero is from the numbers between two. */
const clearance = (a: number, b: number): number => (a * b <= 0 ? 0 : Math.min(Math.abs(a), Math.abs(b)))

const clamp = (t: number): number => Math.min(1, Math.max(0, t))
