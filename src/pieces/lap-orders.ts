import type { Quilt } from '../quilt/quilt.ts'
import { type AreaOrder, type Direction, waysThrough } from './areas.ts'
import type { Net } from './net.ts'
import type { Pieces } from './pieces.ts'

/** Orders of work that finish each band, once round the quilt, before they go on to a neighbour. */
export function lapOrders(
  { pieces, net, quilt }: { pieces: Pieces; net: Pick<Net, 'fills' | 'seams'>; quilt: Quilt },
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
  net.seams.forEach(({ ditch, patch, ring }, index) => {
    if (ditch !== undefined) add(patch ?? bandBeside(ring!, { pieces, quilt }), net.fills.length + index)
  })
  const bands = [...laps.keys()].sort((a, b) => a - b)
  return waysThrough(bands, direction).map((way) => way.map((band) => laps.get(band)!))
}

/** The band with ditched patches beside a ring: the one outside it, or else the one inside. */
function bandBeside(ring: number, { pieces, quilt }: { pieces: Pieces; quilt: Quilt }): number {
  return pieces.ditched.some(({ patch }) => quilt.patches![patch]!.band === ring) ? ring : ring - 1
}
