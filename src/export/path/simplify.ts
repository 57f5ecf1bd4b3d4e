import simplify from 'simplify-js'
import type { Point } from '../../geometry/point.ts'

/**
 * Points are compared on this grid, mm: engines differ in the last digit of a sine, and where two points are equally far
 * from a chord that digit would decide which one stays.
 */
const GRID = 1e-6

const onGrid = (mm: number): number => Math.round(mm / GRID) * GRID

/** Longest run handed to the library: its recursion and its quadratic worst case stay harmless. */
const LONGEST_RUN = 2000

/**
 * Leaves out points of a polyline as long as no left-out point strays further than `deviation` from the chord that
 * replaces it. First, last and `kept` points stay.
 *
 * @param points     mm
 * @param deviation  greatest distance of a left-out point from its chord, mm; 0 keeps every point
 * @param kept       indices of points that stay (cusps), ascending
 * @source Ramer 1972, Douglas and Peucker 1973
 */
export function simplifyPoints(
  points: readonly Point[],
  deviation: number,
  kept: readonly number[],
): Point[] {
  if (points.length < 3 || deviation <= 0) return [...points]
  const simple: Point[] = [points[0]!]
  for (const [from, to] of runsBetween(points.length, kept)) {
    const run = points
      .slice(from, to + 1)
      .map((point) => ({ x: onGrid(point[0]), y: onGrid(point[1]), point }))
    for (const { point } of (simplify(run, deviation, true) as typeof run).slice(1)) simple.push(point)
  }
  return simple
}

/** Index pairs that share their ends, cut at `kept` and after LONGEST_RUN points. */
function runsBetween(count: number, kept: readonly number[]): [from: number, to: number][] {
  const runs: [number, number][] = []
  let from = 0
  for (const stop of [...kept, count - 1]) {
    if (stop <= from) continue
    const pieces = Math.ceil((stop - from) / LONGEST_RUN)
    for (let i = 0; i < pieces; i++) {
      const start = from + Math.round(((stop - from) * i) / pieces)
      runs.push([start, from + Math.round(((stop - from) * (i + 1)) / pieces)])
    }
    from = stop
  }
  return runs
}
