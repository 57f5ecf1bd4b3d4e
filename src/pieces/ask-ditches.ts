import { distance, lerp, type Point } from '../geometry/point.ts'
import { endOf } from '../geometry/stroke.ts'
import { type AreaOrder, asArea } from './areas.ts'
import type { Net, SeamEdge } from './net.ts'
import type { Pieces } from './pieces.ts'

/** A seam wanted stitched in the ditch: the ring inside a band, its corners' seams, or the seams of its patches. */
export interface WantedDitch {
  readonly kind: 'ring' | 'corner' | 'patch'
  readonly band: number
}

/**
 * The net with the seams that are asked for stitched in the ditch: each of their stretches belongs to the sector whose
 * stitching is nearest. Without any stitching nothing is changed.
 */
export function askDitches(net: Net, pieces: Pieces, wanted: readonly WantedDitch[]): Net {
  if (wanted.length === 0 || pieces.pieces.length === 0) return net
  const places = sectorPlaces(pieces)
  const seams = net.seams.map((seam): SeamEdge => {
    if (seam.ditch !== undefined || !wanted.some((ditch) => isPartOf(seam, ditch))) return seam
    const middle = lerp(net.positions[seam.u]!, net.positions[seam.v]!, 0.5)
    return { ...seam, ditch: nearestSector(places, middle) }
  })
  return { ...net, seams }
}

const isPartOf = (seam: SeamEdge, { kind, band }: WantedDitch): boolean =>
  kind === 'ring' ? seam.ring === band : kind === 'corner' ? isCorner(seam, band) : seam.patch === band

const isCorner = ({ corner, patch }: SeamEdge, band: number): boolean =>
  corner === band && patch === undefined

interface SectorPlace {
  readonly at: Point
  readonly sector: number
}

const sectorPlaces = (pieces: Pieces): SectorPlace[] =>
  pieces.pieces.map(({ stroke, sector }) => ({ at: lerp(stroke.start, endOf(stroke), 0.5), sector }))

function nearestSector(places: readonly SectorPlace[], to: Point): number {
  let [best, least] = [places[0]!.sector, Number.POSITIVE_INFINITY]
  for (const { at, sector } of places) {
    const away = distance(at, to)
    if (away < least) [best, least] = [sector, away]
  }
  return best
}

/** Orders of work tried with the seams that are asked for stitched apart. */
const TRIED = 4

/**
 * The first few orders with the seams that are asked for taken out of the areas and stitched before everything else, each
 * as an area of its own: a seam round the quilt is a closed lap, and costs its neighbours nothing.
 */
export function ditchesFirst(
  orders: readonly AreaOrder[],
  net: Net,
  wanted: readonly WantedDitch[],
): AreaOrder[] {
  const laps = wanted
    .map((ditch) =>
      net.seams.flatMap((seam, i) =>
        seam.ditch !== undefined && isPartOf(seam, ditch) ? [net.fills.length + i] : [],
      ),
    )
    .filter((lap) => lap.length > 0)
  const apart = new Set(laps.flat())
  return orders.slice(0, TRIED).map((order) => [
    ...laps,
    ...order.flatMap((area) => {
      const full = asArea(area)
      const required = full.required.filter((edge) => !apart.has(edge))
      return required.length > 0 ? [{ ...full, required }] : []
    }),
  ])
}
