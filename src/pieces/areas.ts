import type { Pieces } from './pieces.ts'

/** Areas in the order of work, each a list of piece indices. */
export type AreaOrder = readonly (readonly number[])[]

/**
 * Orders of work worth trying: group after group from the middle outward or from the outside in, each once round the
 * quilt, beginning at a corner or at the middle of a side.
 */
export function areaOrders(pieces: Pieces): AreaOrder[] {
  const bySector = piecesBySector(pieces)
  const rings = sectorsByGroup(pieces)
  const begins = beginnings(pieces, rings)
  const outward = rings.map((_, group) => group)
  const ways = rings.length > 1 ? [outward, [...outward].reverse()] : [outward]
  return ways.flatMap((groups) =>
    begins.map((begin) =>
      groups.flatMap((g) => rotate(rings[g]!, begin[g]!)).map((sector) => bySector[sector]!),
    ),
  )
}

function piecesBySector(pieces: Pieces): number[][] {
  const lists: number[][] = pieces.sectors.map(() => [])
  pieces.pieces.forEach((piece, index) => lists[piece.sector]!.push(index))
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
