import type { Point } from '../../src/geometry/point.ts'
import { directionAt } from '../../src/geometry/segment.ts'
import { eachSegment, type Stroke } from '../../src/geometry/stroke.ts'

/** The greatest jump of direction at a joint, radians. */
export function sharpestJoint(stroke: Stroke): number {
  let before: Point | undefined
  let worst = 0
  eachSegment(stroke, (from, segment) => {
    const [x, y] = directionAt(from, segment, 0)
    if (before)
      worst = Math.max(
        worst,
        Math.abs(Math.atan2(before[0] * y - before[1] * x, before[0] * x + before[1] * y)),
      )
    before = directionAt(from, segment, 1)
  })
  return worst
}
