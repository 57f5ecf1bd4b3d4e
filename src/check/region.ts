import { areaD, differenceD, FillRule, intersectD, unionD } from 'clipper2-ts'
import { PlanError } from '../error.ts'
import type { Point } from '../geometry/point.ts'
import { type Box, boundsOf } from '../geometry/stroke.ts'
import type { Metric } from './metric.ts'
import { polylineOf, type Stretches, stretchesOf } from './polyline.ts'

/** A part of the quilt: what lies inside an odd number of rings. Rings are closed, their first point not repeated. */
export interface Region {
  readonly rings: readonly (readonly Point[])[]
}

/** How many decimals of a millimetre polygons are joined with. */
const DECIMALS = 4

/**
 * The region covered by some polygons, such as the four sides of a band. Edges that two of them share vanish.
 *
 * @param polygons  closed, of either direction; they may touch and overlap
 */
export function regionOf(polygons: readonly (readonly Point[])[]): Region {
  const paths = polygons.map((ring) => {
    const path = ring.map(([x, y]) => ({ x, y }))
    return areaD(path) < 0 ? path.reverse() : path
  })
  const joined = unionD(paths, [], FillRule.NonZero, DECIMALS)
  return fromPaths(joined)
}

/**
 * What is left of a region without some polygons; no rings if nothing is.
 *
 * @param polygons  closed, of either direction; they may touch and overlap
 */
export const withoutPolygons = (region: Region, polygons: readonly (readonly Point[])[]): Region =>
  fromPaths(differenceD(toPaths(region), toPaths(regionOf(polygons)), FillRule.EvenOdd, DECIMALS))

/** What of a region lies within some polygons; no rings if nothing does. */
export const withinPolygons = (region: Region, polygons: readonly (readonly Point[])[]): Region =>
  fromPaths(intersectD(toPaths(region), toPaths(regionOf(polygons)), FillRule.EvenOdd, DECIMALS))

const toPaths = ({ rings }: Region) => rings.map((ring) => ring.map(([x, y]) => ({ x, y })))

const fromPaths = (paths: readonly (readonly { x: number; y: number }[])[]): Region => ({
  rings: paths.map((path) => path.map(({ x, y }): Point => [x, y])),
})

/** Area between the rings, mm²: rings inside others count as holes by their direction. */
export function regionArea({ rings }: Region): number {
  const areas = rings.map(ringArea)
  const depth = rings.map(
    (ring, i) => rings.filter((other, j) => j !== i && isInside(other, ring[0]!)).length,
  )
  return areas.reduce((sum, area, i) => sum + (depth[i]! % 2 === 0 ? area : -area), 0)
}

/** Area of one ring, mm², whatever its direction. */
function ringArea(ring: readonly Point[]): number {
  let twice = 0
  ring.forEach(([x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length]!
    twice += x * nextY - nextX * y
  })
  return Math.abs(twice) / 2
}

function isInside(ring: readonly Point[], [x, y]: Point): boolean {
  let inside = false
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside
  })
  return inside
}

/** The edges of a region, and the box round them. */
export interface Boundary {
  readonly edges: Stretches
  readonly box: Box
}

/** @throws PlanError `check/empty-region` for a region without area */
export function boundaryOf(region: Region): Boundary {
  const area = regionArea(region)
  if (!(area > 0)) {
    const message = `the region has an area of ${area} mm²; it must be above 0`
    throw new PlanError({ code: 'check/empty-region', message, at: '' })
  }
  const closed = region.rings.map((ring) => polylineOf([...ring, ring[0]!]))
  return { edges: stretchesOf(closed), box: boundsOf(region.rings.flat()) }
}

/** The distance from `p` to the region's edge, mm; negative outside the region. */
export function depthInside({ edges }: Boundary, p: Point, metric: Metric): number {
  const { ax, ay, bx, by, count } = edges
  let nearest = Infinity
  let inside = false
  for (let i = 0; i < count; i++) {
    nearest = Math.min(nearest, metric.distance(p, edges, i))
    if (ay[i]! > p[1] === by[i]! > p[1]) continue
    if (p[0] < ax[i]! + ((bx[i]! - ax[i]!) * (p[1] - ay[i]!)) / (by[i]! - ay[i]!)) inside = !inside
  }
  return inside ? nearest : -nearest
}
