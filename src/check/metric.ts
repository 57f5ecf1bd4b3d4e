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
    const [px, py] = [ax[i]! - p[0], ay[i]! - p[1]]
    const [dx, dy] = [bx[i]! - ax[i]!, by[i]! - ay[i]!]
    const squared = dx * dx + dy * dy
    const t = squared > 0 ? clamp(-(px * dx + py * dy) / squared) : 0
    return Math.sqrt((px + dx * t) ** 2 + (py + dy * t) ** 2)
  },
}

/**
 * The greater of the distances across and down. It is convex along a stretch, so its least value lies at an end,
 * where the two are equal, or where one is zero.
 */
export const SQUARE: Metric = {
  reach: 1,
  distance(p, { ax, ay, bx, by }, i) {
    const [px, py] = [ax[i]! - p[0], ay[i]! - p[1]]
    const [dx, dy] = [bx[i]! - ax[i]!, by[i]! - ay[i]!]
    let least = Math.min(greater(px, py), greater(px + dx, py + dy))
    if (dx !== dy) least = Math.min(least, greaterAt([px, py, dx, dy], (py - px) / (dx - dy)))
    if (dx !== -dy) least = Math.min(least, greaterAt([px, py, dx, dy], -(px + py) / (dx + dy)))
    if (dx !== 0) least = Math.min(least, greaterAt([px, py, dx, dy], -px / dx))
    if (dy !== 0) least = Math.min(least, greaterAt([px, py, dx, dy], -py / dy))
    return least
  },
}

const greater = (x: number, y: number): number => Math.max(Math.abs(x), Math.abs(y))

function greaterAt([px, py, dx, dy]: readonly [number, number, number, number], at: number): number {
  const t = clamp(at)
  return greater(px + dx * t, py + dy * t)
}

const clamp = (t: number): number => Math.min(1, Math.max(0, t))
