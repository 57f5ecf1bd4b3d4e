import { add, type Point, scale, subtract, unit } from '../geometry/point.ts'
import type { Band, Corners, Quilt, Seam, Side } from './quilt.ts'

/** A width for each side, mm. */
export interface Sides<T = number> {
  readonly top: T
  readonly right: T
  readonly bottom: T
  readonly left: T
}

export interface BandSize {
  readonly name: string
  /** Finished widths, mm. */
  readonly width: Sides
  readonly fabric: string
  readonly corners: Corners
}

export interface QuiltSize {
  /** Finished size of the centre, mm. */
  readonly centre: { readonly width: number; readonly height: number; readonly fabric: string }
  /** From the inside out. */
  readonly bands: readonly BandSize[]
  /** What the binding covers on the front, mm. */
  readonly binding: number
}

/**
 * Lays the centre and its bands out as nested rectangles, with the binding outside the last band.
 *
 * @returns mm; the origin is the top left corner of the binding
 */
export function layOutQuilt(size: QuiltSize): Quilt {
  const offset = (side: keyof Sides) =>
    size.binding + size.bands.reduce((sum, band) => sum + band.width[side], 0)
  let [left, top] = [offset('left'), offset('top')]
  let [right, bottom] = [left + size.centre.width, top + size.centre.height]
  const widthMm = right + offset('right')
  const heightMm = bottom + offset('bottom')
  const rings: Point[][] = [rectangle([left, top], [right, bottom])]
  for (const { width } of size.bands) {
    left -= width.left
    top -= width.top
    right += width.right
    bottom += width.bottom
    rings.push(rectangle([left, top], [right, bottom]))
  }
  return assembleQuilt(rings, rectangle([0, 0], [widthMm, heightMm]), size)
}

/** Builds bands and seams on nested outlines that all have the same number of corners. */
export function assembleQuilt(
  rings: readonly (readonly Point[])[],
  edge: readonly Point[],
  size: Pick<QuiltSize, 'centre' | 'bands'>,
): Quilt {
  const bands = size.bands.map(({ name, fabric, corners }, index): Band => {
    return { index, name, fabric, corners, sides: sidesBetween(rings[index]!, rings[index + 1]!) }
  })
  const ringSeams = rings.map(
    (points, index): Seam => ({ kind: 'ring', index, points: [...points, points[0]!] }),
  )
  const xs = edge.map((p) => p[0])
  const ys = edge.map((p) => p[1])
  return {
    widthMm: Math.max(...xs) - Math.min(...xs),
    heightMm: Math.max(...ys) - Math.min(...ys),
    rings,
    edge,
    centreFabric: size.centre.fabric,
    bands,
    seams: [...ringSeams, ...bands.flatMap(cornerSeams)],
  }
}

function rectangle([left, top]: Point, [right, bottom]: Point): Point[] {
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ]
}

function sidesBetween(inner: readonly Point[], outer: readonly Point[]): Side[] {
  return inner.map((innerA, i) => {
    const next = (i + 1) % inner.length
    return { innerA, innerB: inner[next]!, outerA: outer[i]!, outerB: outer[next]! }
  })
}

/** The seams inside a band, at its corners: on the mitre, on the ends of the strips sewn first, or round a cornerstone. */
function cornerSeams(band: Band): Seam[] {
  return band.sides.flatMap((side, index) => {
    const before = band.sides.at(index - 1)!
    const seam = (to: Point): Seam => ({ kind: 'corner', index: band.index, points: [side.innerA, to] })
    const endOfThis = project(side.innerA, side)
    const endOfBefore = project(side.innerA, before)
    const isRow = index % 2 === 0
    const seams: Record<Corners, readonly Seam[]> = {
      mitred: [seam(side.outerA)],
      cornerstone: [seam(endOfThis), seam(endOfBefore)],
      'butted-rows': [seam(isRow ? endOfThis : endOfBefore)],
      'butted-columns': [seam(isRow ? endOfBefore : endOfThis)],
    }
    return seams[band.corners]
  })
}

/** The foot of `p` on the side's outer seam. */
function project(p: Point, side: Side): Point {
  const along = unit(subtract(side.outerB, side.outerA))
  const from = subtract(p, side.outerA)
  return add(side.outerA, scale(along, from[0] * along[0] + from[1] * along[1]))
}
