import type { Point } from '../geometry/point.ts'
import { type Warp, warpStroke } from '../geometry/warp.ts'
import type { Drawn, MitreStrip, Strip } from './contract.ts'

/**
 * A stretch of a band's half side in the half side's own frame: u from the side's middle (of the inner seam) towards
 * the corner, v outward, mm. Its two ends are lines from the inner to the outer seam.
 */
export interface Stretch {
  readonly width: number
  readonly start: { readonly inner: number; readonly outer: number }
  readonly end: { readonly inner: number; readonly outer: number }
}

/** Spreads the lean of both ends evenly over the stretch: lines across the strip stay straight lines. */
export function fanWarp(stretch: Stretch): Warp {
  const { width, start, end } = stretch
  const length = fanLength(stretch)
  return ([u, v]: Point) => {
    const f = u / length
    const s = v / width
    const inner = start.inner + f * (end.inner - start.inner)
    const outer = start.outer + f * (end.outer - start.outer)
    const rate = ((1 - s) * (end.inner - start.inner) + s * (end.outer - start.outer)) / length
    return { to: [inner + s * (outer - inner), v], du: [rate, 0], dv: [(outer - inner) / width, 1] }
  }
}

/** Length of the rectangle that `fanWarp` bends: the stretch's mean length, mm. */
export const fanLength = ({ start, end }: Stretch): number =>
  (end.inner - start.inner + end.outer - start.outer) / 2

/** Over how many overhangs of the mitre a strip leans onto it, if it is long enough: the longer, the less it shows. */
const LEANING = 4

/**
 * Leaves the strip as it is and leans it, more and more, onto the mitre at its far end. The map keeps every line
 * along the strip on its v, so that nothing leaves the band; it is the mirror image of itself across the mitre.
 *
 * Precondition: the rectangle is longer than half the mitre's overhang; otherwise the map would fold.
 *
 * @param length  of the rectangle that is bent, mm: up to the middle of the mitre
 */
export function cornerWarp(stretch: Stretch, length: number): Warp {
  const { width, end } = stretch
  const overhang = end.outer - end.inner
  if (overhang === 0) return ([u, v]: Point) => ({ to: [end.inner - length + u, v], du: [1, 0], dv: [0, 1] })
  const origin = (end.inner + end.outer) / 2 - length
  // A quadratic needs 1.5 overhangs to stay gentle; a shorter stretch leans evenly over all of its length.
  const isRoomy = length > 1.5 * Math.abs(overhang)
  const zone = isRoomy ? Math.min(length, LEANING * Math.abs(overhang)) : length
  return ([u, v]: Point) => {
    const s = Math.max(0, (u - (length - zone)) / zone)
    const lean = isRoomy ? s * s : s
    const slope = s === 0 ? 0 : (isRoomy ? 2 * s : 1) / zone
    const across = (v / width - 0.5) * overhang
    return {
      to: [origin + u + lean * across, v],
      du: [1 + slope * across, 0],
      dv: [(lean * overhang) / width, 1],
    }
  }
}

/** What is drawn in a rectangle, under a map. */
export function bend(drawn: Drawn, warp: Warp): Drawn {
  const { stroke, ends } = warpStroke(drawn.stroke, warp)
  const touches = drawn.touches.map(({ edge, after }) => ({
    edge,
    after: after === 0 ? 0 : ends[after - 1]!,
  }))
  return { stroke, touches }
}

/** The skew of a mitre from which on leaning shows so much that round forms need a corner of their own. */
export const STEEP = 0.7

/** Draws a straight strip as long as a strip up to a mitre is in its middle, and leans it onto the mitre. */
export function drawLeaning(strip: MitreStrip, draw: (strip: Strip) => Drawn): Drawn {
  const { length, width, skew } = strip
  const stretch = {
    width,
    start: { inner: 0, outer: 0 },
    end: { inner: length, outer: length + skew * width },
  }
  const straight = length + (skew * width) / 2
  return bend(draw({ ...strip, length: straight }), cornerWarp(stretch, straight))
}
