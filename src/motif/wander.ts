import type { Point } from '../geometry/point.ts'
import type { Random } from './random.ts'
import type { Cell } from './tree-walk.ts'

/** In cells: how far a point strays by itself, how far the whole mesh sways, and over what length. */
const STRAY = 0.12
const SWAY = 0.42
const LENGTH = 6.5

/** A smooth displacement of the mesh that fades out at the rim: two waves across each other in each direction. */
function swayOf(fade: (p: Point) => number, random: Random): (p: Point) => Point {
  const phase = Array.from({ length: 4 }, () => random.between(0, 2 * Math.PI))
  const k = (2 * Math.PI) / LENGTH
  return (p) => {
    const [u, v] = p
    const most = SWAY * fade(p)
    if (most === 0) return p
    const du = Math.sin(k * v + phase[0]!) + 0.6 * Math.sin(k * (0.7 * u + 0.6 * v) + phase[1]!)
    const dv = Math.sin(k * u + phase[2]!) + 0.6 * Math.sin(k * (0.7 * v - 0.6 * u) + phase[3]!)
    return [u + most * du, v + most * dv]
  }
}

/** How much of the sway is left at a place of a mesh: none at its rim, all of it two cells from there. */
const fadeIn =
  ([columns, rows]: Point) =>
  ([u, v]: Point): number =>
    Math.min(1, u / 2, (columns - u) / 2) * Math.min(1, v / 2, (rows - v) / 2)

/**
 * The middles of the cells of a walk, strayed so that the mesh no longer shows but lines neither meet nor leave the
 * mesh's outline.
 *
 * @param mesh  columns and rows of a rectangle; or how much of the sway is left at a place, 0 to 1
 * @returns points in cells: u from 0 to `columns`, v from 0 to `rows`
 */
export function wander(
  cells: readonly Cell[],
  mesh: Point | ((p: Point) => number),
  random: Random,
): Point[] {
  const sway = swayOf(typeof mesh === 'function' ? mesh : fadeIn(mesh), random)
  return cells.map(([c, r]): Point => {
    const u = c + 0.5 + random.between(-STRAY, STRAY)
    return sway([u, r + 0.5 + random.between(-STRAY, STRAY)])
  })
}
