import { lengthText } from '../export/labels.ts'
import { distance, distanceToLine, type Point } from '../geometry/point.ts'
import { outsideOf } from '../quilt/avoided-region.ts'
import type { Quilt } from '../quilt/quilt.ts'
import { sideWords } from '../quilt/side-words.ts'
import type { LengthUnit } from '../units.ts'

/** A place this close to the edge of a region is told with it, mm. */
const ON_EDGE = 0.1

/** A place in words: the seam or band, the side, and how far from the corner in the plan's unit. */
export function wherePoint(at: Point, { quilt, units }: { quilt: Quilt; units: LengthUnit }): string {
  const region = quilt.regions?.find((shape) => Math.abs(outsideOf(shape)(at)) < ON_EDGE)
  const edge = region ? `edge of ${region.name}, ` : ''
  const spots = quilt.rings.flatMap((ring, index) =>
    ring.map((a, side) => ({ index, side, a, b: ring[(side + 1) % ring.length]! })),
  )
  const nearest = spots.reduce((best, spot) =>
    distanceToLine(at, spot.a, spot.b) < distanceToLine(at, best.a, best.b) ? spot : best,
  )
  const away = distanceToLine(at, nearest.a, nearest.b)
  const corner = Math.min(distance(at, nearest.a), distance(at, nearest.b))
  const side = sideWords(quilt.rings[nearest.index]!, nearest.side)
  const seam = seamName(nearest.index, quilt)
  return `${edge}${away < 1 ? '' : 'near '}${seam}, ${side}, ${lengthText(corner, units)} from the corner`
}

/** A ring seam by the bands that it parts. */
export function seamName(ring: number, quilt: Quilt): string {
  const inside = ring === 0 ? 'centre' : quilt.bands[ring - 1]!.name
  const outside = quilt.bands[ring]?.name ?? 'binding'
  return `seam ${inside} / ${outside}`
}
