import type { Affine } from '../geometry/affine.ts'
import { distance, dot, lerp, type Point, scale, subtract, unit } from '../geometry/point.ts'
import type { Warp } from '../geometry/warp.ts'
import type { Side } from '../quilt/quilt.ts'

/**
 * The frame of half a side: u from the middle of the inner seam to the corner, v outward from the inner seam, mm. A
 * motif is drawn in it as in a strip of even width; `lean` then brings it onto an outer seam that isn't parallel.
 */
export interface SideFrame {
  /** From the frame to the quilt. */
  readonly place: Affine
  /** Half the length of the inner seam. */
  readonly innerHalf: number
  /** Where the middle of the outer seam lies along u, and how far from it its corner. */
  readonly outerMiddle: number
  readonly outerHalf: number
  /** Mean height of the outer seam over the inner one. */
  readonly width: number
  /** Undefined where the seams are parallel. */
  readonly lean: Warp | undefined
}

/** Seams whose distance changes by less than this are parallel, mm. */
const PARALLEL = 1e-9

export function frameOf(side: Side, half: 'left' | 'right'): SideFrame {
  const middle = lerp(side.innerA, side.innerB, 0.5)
  const rightward = unit(subtract(side.innerB, side.innerA))
  const along = half === 'right' ? rightward : scale(rightward, -1)
  // The outside lies to the left of the way from A to B, with y down.
  const out: Point = [rightward[1], -rightward[0]]
  const local = (p: Point): Point => [dot(subtract(p, middle), along), dot(subtract(p, middle), out)]
  const [outerMiddle, middleHeight] = local(lerp(side.outerA, side.outerB, 0.5))
  const [corner, cornerHeight] = local(half === 'right' ? side.outerB : side.outerA)
  const width = (middleHeight + cornerHeight) / 2
  const slope = (cornerHeight - middleHeight) / (corner - outerMiddle)
  return {
    place: { a: along[0], b: along[1], c: out[0], d: out[1], e: middle[0], f: middle[1] },
    innerHalf: distance(side.innerA, side.innerB) / 2,
    outerMiddle,
    outerHalf: corner - outerMiddle,
    width,
    lean:
      Math.abs(cornerHeight - middleHeight) < PARALLEL
        ? undefined
        : leanWarp({ width, slope, atOrigin: middleHeight - slope * outerMiddle }),
  }
}

/** Stretches every line across the strip from the strip's width to the height of the outer seam there. */
function leanWarp({ width, slope, atOrigin }: { width: number; slope: number; atOrigin: number }): Warp {
  return ([u, v]) => {
    const height = atOrigin + slope * u
    return { to: [u, (v * height) / width], du: [1, (v * slope) / width], dv: [0, height / width] }
  }
}
