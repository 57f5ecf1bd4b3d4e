import { add, lerp, type Point, subtract } from '../geometry/point.ts'
import { boundsOf } from '../geometry/stroke.ts'
import type { Side } from './quilt.ts'

/** The upright outline round one that stands on point: its sides touch the corners. Corners clockwise from the top left. */
export function settingOutline(onPoint: readonly Point[]): Point[] {
  const { minX, minY, maxX, maxY } = boundsOf(onPoint)
  return [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
  ]
}

/**
 * The sides of a band of setting triangles: each runs along one side of the outline on point, and is as deep as the triangle
 * on it, whose tip is the middle of its outer line.
 *
 * @param inner  the outline on point, corners clockwise from the left one
 * @param outer  the upright outline, corners clockwise from the top left one
 */
export const settingSides = (inner: readonly Point[], outer: readonly Point[]): Side[] =>
  inner.map((innerA, i) => {
    const innerB = inner[(i + 1) % inner.length]!
    const rise = subtract(outer[i]!, lerp(innerA, innerB, 0.5))
    return { innerA, innerB, outerA: add(innerA, rise), outerB: add(innerB, rise) }
  })
