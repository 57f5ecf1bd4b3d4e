import { dot, lerp, type Point, scale, subtract, unit } from '../geometry/point.ts'
import { footOnOuter } from '../quilt/layout.ts'
import { meetingPoint } from '../quilt/outline.ts'
import type { Band } from '../quilt/quilt.ts'

/** Where a strip ends, in its half side's frame: along the inner and along the outer seam, mm. */
export interface StripEnd {
  readonly inner: number
  readonly outer: number
}

/**
 * The end of one strip of a band: square at its inner corner where a cornerstone lies, or where it was sewn first; past it,
 * at the outer seam of its neighbour, where it was sewn over that one's end. Undefined on a mitre.
 */
export function stripEndOf(
  band: Band,
  { side: index, half }: { side: number; half: 'left' | 'right' },
): StripEnd | undefined {
  if (band.corners === 'mitred') return undefined
  const side = band.sides[index]!
  const isRight = half === 'right'
  const middle = lerp(side.innerA, side.innerB, 0.5)
  const along = scale(unit(subtract(side.innerB, side.innerA)), isRight ? 1 : -1)
  const local = (p: Point) => dot(subtract(p, middle), along)
  const inner = isRight ? side.innerB : side.innerA
  const isFirst = (band.corners === 'butted-rows') === (index % 2 === 0)
  if (band.corners === 'cornerstone' || isFirst) {
    return { inner: local(inner), outer: local(footOnOuter(inner, side)) }
  }
  const neighbour = band.sides[(index + (isRight ? 1 : band.sides.length - 1)) % band.sides.length]!
  const over = meetingPoint(
    { at: side.innerA, along: subtract(side.innerB, side.innerA) },
    { at: neighbour.outerA, along: subtract(neighbour.outerB, neighbour.outerA) },
  )
  return { inner: local(over), outer: local(isRight ? side.outerB : side.outerA) }
}
