import type { Point } from '../geometry/point.ts'
import type { Warp } from '../geometry/warp.ts'

/** How far points move, how long a wave is, and over what way it grows from the edge, in distances between lines. */
const SWAY = { most: 0.9, wave: 20, edge: 5 }

/** How far a sway moves a point at most, either way, mm. @param spacing  distance between lines, mm */
export const mostSway = (spacing: number): number => SWAY.most * spacing

/**
 * Lets straight rows sway: a smooth map of a rectangle onto itself that keeps its edges where they are and moves what is
 * inside in waves across and down. It does not fold: its shear is 2 pi 1.13 x 0.9 / 20 = 0.32 at most, its stretch 0.9 / 5.
 *
 * @param spacing  distance between lines, mm
 */
export function swayIn([width, height]: Point, spacing: number): Warp {
  const [most, k, edge] = [mostSway(spacing), (2 * Math.PI) / (SWAY.wave * spacing), SWAY.edge * spacing]
  return ([x, y]) => {
    const [wx, wy] = [growth(x, width, edge), growth(y, height, edge)]
    const [px, py] = [k * y + 1, 1.13 * k * x + 4]
    return {
      to: [x + most * wx.value * Math.sin(px), y + most * wy.value * Math.sin(py)],
      du: [1 + most * wx.slope * Math.sin(px), most * wy.value * 1.13 * k * Math.cos(py)],
      dv: [most * wx.value * k * Math.cos(px), 1 + most * wy.slope * Math.sin(py)],
    }
  }
}

/** From 0 at both ends of a way towards 1 between, with its slope. */
function growth(at: number, length: number, edge: number): { value: number; slope: number } {
  const [a, b] = [Math.exp(-at / edge), Math.exp(-(length - at) / edge)]
  return { value: (1 - a) * (1 - b), slope: (a * (1 - b) - (1 - a) * b) / edge }
}
