import type { Point } from '../geometry/point.ts'
import { endOf, type Stroke } from '../geometry/stroke.ts'

/** So many lines from the middle outward; an odd share of a turn between them keeps them off the corners of patches. */
const CUTS = 61

/**
 * Over which part of the way round strokes between the corners of patches lead from one to the next, as one lap does:
 * there, a line from the middle outward crosses an odd number of them. Loops that hang on their patches are crossed twice
 * or not at all.
 *
 * @param strokes  of all patches of a band, each far shorter than half a turn
 * @param middle   of the quilt
 */
export function shareRound(strokes: Iterable<Stroke>, middle: Point): number {
  const isOdd = new Array<boolean>(CUTS).fill(false)
  for (const stroke of strokes) {
    const [a, b] = [cutsTo(stroke.start, middle), cutsTo(endOf(stroke), middle)]
    const isRound = Math.abs(b - a) > CUTS / 2
    const [low, high] = [Math.min(a, b), Math.max(a, b)]
    for (let cut = 0; cut < CUTS; cut++) if ((cut >= low && cut < high) !== isRound) isOdd[cut] = !isOdd[cut]
  }
  return isOdd.filter(Boolean).length / CUTS
}

/** Cuts lie a little off the angle 0, where corners are. */
const OFF = 0.37

/** How many cuts lie between the angle 0 and a point's. */
function cutsTo([x, y]: Point, middle: Point): number {
  const turn = Math.atan2(y - middle[1], x - middle[0]) / (2 * Math.PI)
  return Math.ceil((turn < 0 ? turn + 1 : turn) * CUTS - OFF)
}
