import type { Point } from '../geometry/point.ts'

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b))

/** The odd number nearest to `value`, at least 3. */
export const oddNear = (value: number): number => Math.max(3, 2 * Math.round((value - 1) / 2) + 1)

/**
 * Whole numbers that add up to `total`, none with a divisor in common with `other`: as few as may be, as even as may
 * be.
 */
function coprimeParts(total: number, other: number): number[] {
  if (divisor(total, other) === 1) return [total]
  for (let first = Math.floor(total / 2); first >= 1; first--)
    if (divisor(first, other) === 1 && divisor(total - first, other) === 1) return [first, total - first]
  return [1, ...coprimeParts(total - 1, other)]
}

/**
 * Where a ball that leaves the corner [0, 0] of a table at 45 degrees bounces, until it comes to a corner again. With
 * no divisor in common it passes every second point of the table's lattice, each line once: a crosshatch.
 *
 * @param columns  the table's length, whole
 * @param rows  its height, whole; odd, so that the ball ends at the far end: at the far side if `columns` is odd
 * @returns the corners of the path, the first and last included
 * @source unfolding: the path is straight from [0, 0] to [columns rows, columns rows] through the mirrored tables, and so
 * bounces columns - 1 times off the ends and rows - 1 times off the sides, never off both at once before it is there
 */
function billiard(columns: number, rows: number): Point[] {
  const points: Point[] = [[0, 0]]
  let [u, v] = [0, 0]
  let [right, up] = [true, true]
  for (let bounce = 1; bounce < columns + rows; bounce++) {
    const [free, high] = [right ? columns - u : u, up ? rows - v : v]
    const way = Math.min(free, high)
    u += right ? way : -way
    v += up ? way : -way
    if (way === free) right = !right
    if (way === high) up = !up
    points.push([u, v])
  }
  return points
}

/**
 * A crosshatch of any size as one path: tables side by side whose lengths have no divisor in common with their height,
 * the next one begun where the last one ended. Across the joint the lines run on straight.
 *
 * @param columns  whole; the path ends at the far end, at the far side if it is odd
 * @param rows  whole and odd
 */
export function crosshatchPath(columns: number, rows: number): Point[] {
  const path: Point[] = []
  for (const part of coprimeParts(columns, rows)) {
    const [u0, v0] = path.pop() ?? [0, 0]
    for (const [u, v] of billiard(part, rows)) path.push([u0 + u, v0 === 0 ? v : rows - v])
  }
  return path
}
