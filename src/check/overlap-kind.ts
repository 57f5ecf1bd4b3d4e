import type { Point } from '../geometry/point.ts'
import type { Along, Partner } from './trail.ts'

/** A place on the line and the earlier place that it lies on. */
export interface Look {
  readonly here: Along
  readonly partner: Partner
}

/** Crossings sharper than this are crossings however long they lie on each other, radians. */
const SHARPEST_OVERLAP = 0.015

/** At the quarters a line that crosses or kisses another is so far from it at least, as a part of how far at the ends. */
const LEAST_QUARTER = 0.08

/**
 * What a stretch of line close to an earlier part is, from five looks at even steps.
 *
 * A crossing goes from one side to the other at a steady angle. A kiss comes near, touches and goes away on the same
 * side as two circles do, with a gap that grows with the square of the distance from the touch. The rest is overlap.
 *
 * @param length  of the stretch, mm
 */
export function judgeStretch(
  looks: readonly Look[],
  length: number,
  { within, kissRadius }: { readonly within: number; readonly kissRadius: number },
): 'overlap' | 'crossing' | 'kiss' {
  if (looks.length < 5) return 'overlap'
  const offsets = looks.map(({ partner }) => partner.offset) as [number, number, number, number, number]
  const [first, , , , last] = offsets
  const leavesBothEnds = Math.min(Math.abs(first), Math.abs(last)) > within / 2
  if (!leavesBothEnds) return 'overlap'
  if (first * last < 0) {
    const isSharp = Math.abs(last - first) / length > SHARPEST_OVERLAP
    return isSharp && goesAcross(offsets) ? 'crossing' : 'overlap'
  }
  const areTight = isTight(
    looks.map(({ here }) => here.heading),
    length,
    kissRadius,
  )
  const othersAreTight = isTight(
    looks.map(({ partner }) => partner.heading),
    length,
    kissRadius,
  )
  return areTight && othersAreTight && isParabola(offsets) ? 'kiss' : 'overlap'
}

/** Whether it comes nearer all the way: what turns onto a line, follows it and turns off beyond it does not. */
const goesAcross = ([a, b, , d, e]: readonly [number, number, number, number, number]): boolean =>
  b / a > LEAST_QUARTER && d / e > LEAST_QUARTER

/** Whether the direction turns as much on the stretch as on a circle of that radius, less what flattening hides. */
function isTight(headings: readonly Point[], length: number, radius: number): boolean {
  let turn = 0
  for (let i = 1; i < headings.length; i++) {
    const [a, b] = [headings[i - 1]!, headings[i]!]
    turn += Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])
  }
  return Math.abs(turn) > (0.5 * length) / radius
}

/** Whether the gap at the quarters is about a quarter of that at the ends, as of a square. */
function isParabola([a, b, c, d, e]: readonly [number, number, number, number, number]): boolean {
  const share = (quarter: number, end: number) => (quarter - c) / (end - c)
  return [share(b, a), share(d, e)].every((s) => s > LEAST_QUARTER && s < 0.5)
}
