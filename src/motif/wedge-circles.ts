import { dot, type Point, subtract } from '../geometry/point.ts'
import type { Circle } from './circle-columns.ts'
import type { MitreStrip } from './contract.ts'

/** The direction half way between the outer edge and the mitre, out to the outer corner. */
export function bisector(skew: number): Point {
  const half = Math.atan2(1, skew) / 2
  return [Math.cos(half), Math.sin(half)]
}

/**
 * Circles one behind the other in the wedge between the outer edge and the mitre, each touching both and the one before,
 * as far as they are not smaller than `least`.
 *
 * @param before  the circle that the first of them touches
 * @param keep    how far they stay from the edge and from the mitre, and the radius of the smallest, mm
 * @source a circle in a wedge of half angle h has its centre on the bisector, its radius / sin h from the apex
 */
export function wedgeCircles(
  { length, width, skew }: MitreStrip,
  before: Circle,
  keep: { readonly fromEdge: number; readonly fromMitre: number; readonly least: number },
): Circle[] {
  const height = width - keep.fromEdge
  const apex: Point = [length + skew * height - keep.fromMitre * Math.hypot(1, skew), height]
  const towards = bisector(skew)
  const circles: Circle[] = []
  let last = before
  for (;;) {
    const away = awayFrom(last, apex, towards)
    const radius = away * towards[1]
    if (!(radius >= keep.least)) return circles
    last = { centre: [apex[0] - away * towards[0], apex[1] - away * towards[1]], radius }
    circles.push(last)
  }
}

/** How far from the apex the centre of the circle lies that touches both sides of the wedge and `other`, mm. */
function awayFrom(other: Circle, apex: Point, towards: Point): number {
  const gap = subtract(apex, other.centre)
  const half = dot(gap, towards) + other.radius * towards[1]
  const square = 1 - towards[1] ** 2
  const product = dot(gap, gap) - other.radius ** 2
  return (half - Math.sqrt(Math.max(0, half * half - square * product))) / square
}
