import { cross, dot, type Point, subtract, unit } from '../../geometry/point.ts'
import type { Band } from '../quilt.ts'

/** A side whose direction differs by less from upright or level is not slanted. */
const STRAIGHT = 1e-9

/**
 * A patch turned so that the side it lies on runs level; as it is in a band without a slanted side, where its edges lie level
 * or upright already.
 */
export function alongSide(outline: readonly Point[], { sides }: Band, index: number): readonly Point[] {
  const ways = sides.map(({ innerA, innerB }) => unit(subtract(innerB, innerA)))
  if (ways.every((way) => Math.min(...way.map(Math.abs)) < STRAIGHT)) return outline
  const along = ways[index]!
  return outline.map((p): Point => {
    const from = subtract(p, sides[index]!.innerA)
    return [dot(along, from), cross(along, from)]
  })
}
