import type { Point } from '../geometry/point.ts'
import type { Patch } from './corner-contract.ts'

/** The corners of the unit square, in order round it from [0, 0] along the u axis. */
export const UNIT_CORNERS: readonly Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
]

/** A place on the unit square's outline as its way round from [0, 0]: 0 to 4, one a side. */
export function wayRound([u, v]: Point): number {
  const sides: readonly (readonly [off: number, way: number])[] = [
    [v, u],
    [1 - u, 1 + v],
    [1 - v, 3 - u],
    [u, 4 - v],
  ]
  const [, way] = sides.reduce((best, side) => (side[0] < best[0] - 1e-9 ? side : best))
  return way % 4
}

/** The place at a way round the square that is inset by `inset`. */
export function placeAt(way: number, inset = 0): Point {
  const side = Math.floor(way) % 4
  const t = inset + (way - Math.floor(way)) * (1 - 2 * inset)
  const places: readonly Point[] = [
    [t, inset],
    [1 - inset, t],
    [1 - t, 1 - inset],
    [inset, 1 - t],
  ]
  return places[side]!
}

/** The places passed from one way round to another, the shorter way: both ends and the corners between. */
export function alongOutline(from: number, to: number, inset = 0): Point[] {
  const ahead = (to - from + 4) % 4
  const places = [placeAt(from, inset)]
  if (ahead <= 2)
    for (let corner = Math.floor(from) + 1; corner < from + ahead - 1e-9; corner++)
      places.push(placeAt(corner % 4, inset))
  else
    for (let corner = Math.ceil(from) - 1; corner > from - (4 - ahead) + 1e-9; corner--)
      places.push(placeAt((corner + 4) % 4, inset))
  places.push(placeAt(to, inset))
  return places
}

/** A place of the patch in the unit square. */
export const inUnit = ({ width, height }: Patch, [u, v]: Point): Point => [u / width, v / height]
