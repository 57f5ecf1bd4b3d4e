import { add, dot, type Point, scale, subtract, unit } from '../geometry/point.ts'
import { meetingPoint } from './outline.ts'
import type { Band, Corners, Quilt, Seam, Side } from './quilt.ts'
import { settingSides } from './setting.ts'

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
  /** Four setting triangles round an outline on point. */
  readonly isSetting?: boolean
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
  return assembleQuilt(rings, rectangle([0, 0], [widthMm, heightMm]), {
    centreFabric: size.centre.fabric,
    bands: size.bands,
  })
}

/** Builds bands and seams on nested outlines that all have the same number of corners. */
export function assembleQuilt(
  rings: readonly (readonly Point[])[],
  edge: readonly Point[],
  looks: {
    readonly centreFabric: string
    readonly bands: readonly Pick<BandSize, 'name' | 'fabric' | 'corners' | 'isSetting'>[]
  },
): Quilt {
  const bands = looks.bands.map(({ name, fabric, corners, isSetting }, index): Band => {
    const sides = (isSetting ? settingSides : sidesBetween)(rings[index]!, rings[index + 1]!)
    return { index, name, fabric, corners, sides }
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
    centreFabric: looks.centreFabric,
    bands,
    seams: [...ringSeams, ...bands.filter((_, k) => !looks.bands[k]!.isSetting).flatMap(cornerSeams)],
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
  return band.sides.flatMap((side, index) =>
    cornerEnds(band, index).map(
      (to): Seam => ({ kind: 'corner', index: band.index, points: [side.innerA, to] }),
    ),
  )
}

/** Where the seams that leave a side's first inner corner meet the outer ring. */
function cornerEnds({ sides, corners }: Band, index: number): Point[] {
  const side = sides[index]!
  const before = sides.at(index - 1)!
  const isRow = index % 2 === 0
  switch (corners) {
    case 'mitred':
      return [side.outerA]
    case 'cornerstone':
      return [footOnOuter(side.innerA, side), footOnOuter(side.innerA, before)]
    case 'butted-rows':
      return [isRow ? stripEnd(side, before) : stripEnd(before, side)]
    case 'butted-columns':
      return [isRow ? stripEnd(before, side) : stripEnd(side, before)]
  }
}

/** The foot of `p` on the side's outer seam. */
export function footOnOuter(p: Point, side: Side): Point {
  const along = unit(subtract(side.outerB, side.outerA))
  return add(side.outerA, scale(along, dot(subtract(p, side.outerA), along)))
}

/** Where the end of a strip that was sewn first meets its outer seam: its neighbour's inner seam runs straight on. */
const stripEnd = (strip: Side, neighbour: Side): Point =>
  meetingPoint(
    { at: neighbour.innerA, along: subtract(neighbour.innerB, neighbour.innerA) },
    { at: strip.outerA, along: subtract(strip.outerB, strip.outerA) },
  )
