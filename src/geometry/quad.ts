import { distance, lerp, type Point, scale, subtract } from './point.ts'
import { type Stroke, transformStroke } from './stroke.ts'
import { type Warp, warpStroke } from './warp.ts'

/** Four corners, in order round the outline. */
export type Quad = readonly [Point, Point, Point, Point]

/** A quad whose fourth corner completes a parallelogram to within this is one, mm. */
const FLAT = 1e-6

/**
 * Brings a stroke from the rectangle (0, 0) to (width, height), mm, onto four corners: evenly along each side.
 *
 * @source the bilinear map of a square onto a quadrilateral
 */
export function strokeOntoQuad(
  stroke: Stroke,
  { quad, width, height }: { quad: Quad; width: number; height: number },
): Stroke {
  const [a, b, c, d] = quad
  const [across, down] = [scale(subtract(b, a), 1 / width), scale(subtract(d, a), 1 / height)]
  if (distance(c, [b[0] + d[0] - a[0], b[1] + d[1] - a[1]]) < FLAT)
    return transformStroke(stroke, { a: across[0], b: across[1], c: down[0], d: down[1], e: a[0], f: a[1] })
  return warpStroke(stroke, quadWarp(quad, { width, height })).stroke
}

function quadWarp([a, b, c, d]: Quad, size: { width: number; height: number }): Warp {
  return ([u, v]) => {
    const [s, t] = [u / size.width, v / size.height]
    return {
      to: lerp(lerp(a, b, s), lerp(d, c, s), t),
      du: scale(lerp(subtract(b, a), subtract(c, d), t), 1 / size.width),
      dv: scale(lerp(subtract(d, a), subtract(c, b), s), 1 / size.height),
    }
  }
}
