import type { Net } from './net.ts'
import type { Pieces } from './pieces.ts'

/** Areas in the order of work, each a list of the route's required edges: pieces, and seams stitched in the ditch. */
export type AreaOrder = readonly (readonly number[])[]

/** Which bands come first: whichever is cheaper, the inner ones, or the outer ones. */
export type Direction = 'any' | 'middle-out' | 'outside-in'

/**
 * Orders of work worth trying: group after group from the middle outward or from the outside in, each once round the
 * quilt, beginning at a corner or at the middle of a side.
 */
export function areaOrders(
  pieces: Pieces,
  net: Pick<Net, 'fills' | 'seams'>,
  direction: Direction = 'any',
): AreaOrder[] {
  const bySector = edgesBySector(pieces, net)
  const rings = sectorsByGroup(pieces)
  const begins = beginnings(pieces, rings)
  const ways = waysThrough(
    rings.map((_, group) => group),
    direction,
  )
  return ways.flatMap((groups) =>
    begins.map((begin) =>
      groups
        .flatMap((g) => rotate(rings[g]!, begin[g]!))
        .map((sector) => bySector[sector]!)
        .filter((edges) => edges.length > 0),
    ),
  )
}

/** Numbers from the inside out in the orders that a direction allows. */
export function waysThrough(outward: readonly number[], direction: Direction): number[][] {
  const inward = [...outward].reverse()
  if (direction === 'middle-out') return [[...outward]]
  if (direction === 'outside-in') return [inward]
  return outward.length > 1 ? [[...outward], inward] : [[...outward]]
}

function edgesBySector(pieces: Pieces, { fills, seams }: Pick<Net, 'fills' | 'seams'>): number[][] {
  const lists: number[][] = pieces.sectors.map(() => [])
  pieces.pieces.forEach((piece, index) => {
    lists[piece.sector]!.push(index)
  })
  seams.forEach(({ ditch }, index) => {
    if (ditch !== undefined) lists[ditch]!.push(fills.length + index)
  })
  return lists
}

function sectorsByGroup(pieces: Pieces): number[][] {
  const rings: number[][] = pieces.groups.map(() => [])
  pieces.sectors.forEach((sector, index) => rings[sector.group]!.push(index))
  return rings
}

/** For each corner and each side's middle: how far round each group's ring it lies, in sectors. */
function beginnings(pieces: Pieces, rings: readonly (readonly number[])[]): number[][] {
  const sides = [...new Set(pieces.sectors.map((s) => s.side))]
  const firstOf = (ring: readonly number[], side: number) =>
    ring.findIndex((s) => pieces.sectors[s]!.side === side)
  const countOf = (ring: readonly number[], side: number) =>
    ring.filter((s) => pieces.sectors[s]!.side === side).length
  return sides.flatMap((side) => [
    rings.map((ring) => firstOf(ring, side)),
    rings.map((ring) => firstOf(ring, side) + countOf(ring, side) / 2),
  ])
}

const rotate = <T>(list: readonly T[], by: number): T[] => [...list.slice(by), ...list.slice(0, by)]
