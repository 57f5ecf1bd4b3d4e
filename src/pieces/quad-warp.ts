import { lerp, type Point, scale, subtract } from '../geometry/point.ts'
import type { Warp } from '../geometry/warp.ts'

/** The bilinear map of a rectangle onto four corners. */
export function quadWarp(
  [a, b, c, d]: readonly [Point, Point, Point, Point],
  size: { width: number; height: number },
): Warp {
  return ([u, v]) => {
    const [s, t] = [u / size.width, v / size.height]
    return {
      to: lerp(lerp(a, b, s), lerp(d, c, s), t),
      du: scale(lerp(subtract(b, a), subtract(c, d), t), 1 / size.width),
      dv: scale(lerp(subtract(d, a), subtract(c, b), s), 1 / size.height),
    }
  }
}
