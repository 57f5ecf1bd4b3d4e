import { type AreaOrder, type Direction, waysThrough } from './areas.ts'
import type { Net, SeamEdge } from './net.ts'
import type { Pieces } from './pieces.ts'

/** Orders of work that finish each band, once round the quilt, before they go on to a neighbour. */
export function lapOrders(
  pieces: Pieces,
  net: Pick<Net, 'fills' | 'seams'>,
  direction: Direction,
): AreaOrder[] {
  const laps = new Map<number, number[]>()
  const add = (band: number, edge: number) => {
    const lap = laps.get(band)
    if (lap) lap.push(edge)
    else laps.set(band, [edge])
  }
  pieces.pieces.forEach(({ band }, edge) => {
    add(band, edge)
  })
  const bandOf = ({ patch, corner, ring, edge }: SeamEdge) =>
    edge?.band ?? patch ?? corner ?? bandBeside(ring!, laps)
  net.seams.forEach((seam, index) => {
    if (seam.ditch !== undefined) add(bandOf(seam), net.fills.length + index)
  })
  const bands = [...laps.keys()].sort((a, b) => a - b)
  return waysThrough(bands, direction).map((way) => way.map((band) => laps.get(band)!))
}

/** The band outside a ring if anything is stitched in it, or else the one inside. */
const bandBeside = (ring: number, laps: ReadonlyMap<number, unknown>): number =>
  laps.has(ring) || ring === 0 ? ring : ring - 1
