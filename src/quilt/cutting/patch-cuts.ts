import { dot, type Point, subtract, unit as unitVector } from '../../geometry/point.ts'
import { boundsOf } from '../../geometry/stroke.ts'
import type { LengthUnit } from '../../units.ts'
import { clockwise, offsetOutline } from '../outline.ts'
import { toMark, upToMark } from './tape.ts'

/** How patches of one shape are cut. */
export interface PatchCut {
  /**
   * `rectangle`: width by height; `half-square`: a square cut once from corner to corner gives 2; `quarter-square`: a square
   * cut twice gives 4; `template`: cut round a shape that fits into width by height.
   */
  readonly kind: 'rectangle' | 'half-square' | 'quarter-square' | 'template'
  /** Size of the square or rectangle to cut, mm. */
  readonly width: number
  readonly height: number
  /** Patches from one. */
  readonly yields: number
}

/**
 * How a patch is cut, by its finished shape: its outline moved outward by the seam allowance.
 *
 * @param outline  finished, mm; x along the band
 * @source moved outward by s, a right triangle with two equal legs a has legs a + (2 + sqrt 2) s: the 7/8 in that is added
 *   for half-square triangles; its longest side c becomes c + (2 + 2 sqrt 2) s: the 1 1/4 in for quarter-square triangles
 *   (both common practice, no source)
 */
export function patchCut(
  outline: readonly Point[],
  { unit, seam }: { unit: LengthUnit; seam: number },
): PatchCut {
  const cut = offsetOutline(clockwise(outline), seam)
  const sides = cut.map((p, i) => subtract(cut[(i + 1) % cut.length]!, p))
  const lengths = sides.map((side) => Math.hypot(...side))
  const isSquareTo = (i: number, k: number) =>
    Math.abs(dot(unitVector(sides[i]!), unitVector(sides[k]!))) < 1e-6
  if (cut.length === 4 && [0, 1, 2].every((i) => isSquareTo(i, i + 1))) {
    const [height, width] = [lengths[0]!, lengths[1]!].map((x) => toMark(x, unit)).sort((x, y) => x - y) as [
      number,
      number,
    ]
    return { kind: 'rectangle', width, height, yields: 1 }
  }
  const longest = lengths.indexOf(Math.max(...lengths))
  if (cut.length === 3) {
    const [a, b] = [(longest + 1) % 3, (longest + 2) % 3]
    const isHalfSquare = isSquareTo(a, b) && Math.abs(lengths[a]! - lengths[b]!) < 1e-3 * lengths[longest]!
    if (isHalfSquare) {
      const isAlongGrain = Math.min(...sides[a]!.map(Math.abs)) < 1e-6 * lengths[a]!
      const size = upToMark(isAlongGrain ? lengths[a]! : lengths[longest]!, unit)
      return isAlongGrain
        ? { kind: 'half-square', width: size, height: size, yields: 2 }
        : { kind: 'quarter-square', width: size, height: size, yields: 4 }
    }
  }
  const box = boundsOf(cut)
  return {
    kind: 'template',
    width: upToMark(box.maxX - box.minX, unit),
    height: upToMark(box.maxY - box.minY, unit),
    yields: 1,
  }
}

/** Whether two cuts are the same. */
export const cutKey = ({ kind, width, height }: PatchCut): string =>
  `${kind} ${width.toFixed(3)} ${height.toFixed(3)}`

/** The length of fabric that `count` pieces of a size take, cut in rows across it, mm. */
export function rowsLength(
  { width, height }: { width: number; height: number },
  count: number,
  fabricWidth: number,
): number {
  const inRow = Math.max(1, Math.floor((fabricWidth + 1e-6) / width))
  return Math.ceil(count / inRow) * height
}
