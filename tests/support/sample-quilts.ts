import type { Point } from '../../src/geometry/point.ts'
import type { Band, Quilt, Seam, Side } from '../../src/quilt/quilt.ts'

/** Widths of one band, mm. */
export interface Widths {
  readonly top: number
  readonly right: number
  readonly bottom: number
  readonly left: number
}

export const even = (width: number): Widths => ({ top: width, right: width, bottom: width, left: width })

type Ring = readonly [minX: number, minY: number, maxX: number, maxY: number]

const cornersOf = ([x0, y0, x1, y1]: Ring): Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
]

/** A quilt with mitred bands, from the inside out, with a binding's margin of `binding` mm outside the last. */
export function mitredQuilt(
  centre: readonly [width: number, height: number],
  bands: readonly { name: string; widths: Widths; fabric?: string }[],
  binding = 6.35,
): Quilt {
  const left = bands.reduce((sum, b) => sum + b.widths.left, binding)
  const top = bands.reduce((sum, b) => sum + b.widths.top, binding)
  const rings: Ring[] = [[left, top, left + centre[0], top + centre[1]]]
  for (const { widths: w } of bands) {
    const [x0, y0, x1, y1] = rings.at(-1)!
    rings.push([x0 - w.left, y0 - w.top, x1 + w.right, y1 + w.bottom])
  }
  const [, , right, bottom] = rings.at(-1)!
  const edge: Ring = [0, 0, right + binding, bottom + binding]
  return {
    widthMm: edge[2],
    heightMm: edge[3],
    rings: rings.map(cornersOf),
    edge: cornersOf(edge),
    centreFabric: '#f4efe4',
    bands: bands.map((b, index) => bandBetween(rings[index]!, rings[index + 1]!, { ...b, index })),
    seams: rings.slice(0, -1).map((ring, index): Seam => ({ kind: 'ring', index, points: cornersOf(ring) })),
  }
}

function bandBetween(inner: Ring, outer: Ring, band: { name: string; fabric?: string; index: number }): Band {
  const [i, o] = [cornersOf(inner), cornersOf(outer)]
  const sides = i.map(
    (innerA, k): Side => ({
      innerA,
      innerB: i[(k + 1) % 4]!,
      outerA: o[k]!,
      outerB: o[(k + 1) % 4]!,
    }),
  )
  return { index: band.index, name: band.name, fabric: band.fabric ?? '#c9d6df', corners: 'mitred', sides }
}
