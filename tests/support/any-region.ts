import fc from 'fast-check'
import type { Point } from '../../src/geometry/point.ts'
import { distanceToLine } from '../../src/geometry/point.ts'
import type { AvoidedRegion } from '../../src/quilt/avoided-region.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'

/** A region somewhere on a quilt that is not known yet: places and sizes as shares of it. */
export interface RegionShares {
  readonly at: Point
  /** Of the shorter side. */
  readonly size: number
  /** None: a circle. Else how far out each corner of a polygon lies, as a share of the size. */
  readonly spokes: readonly number[]
  readonly outline: AvoidedRegion['outline']
}

/** Circles, and polygons with corners in and out. */
export const anyRegion: fc.Arbitrary<RegionShares> = fc.record({
  at: fc.tuple(share(0, 1), share(0, 1)),
  size: share(0.02, 0.3),
  spokes: fc.oneof(fc.constant([]), fc.array(share(0.3, 1), { minLength: 3, maxLength: 8 })),
  outline: fc.constantFrom<AvoidedRegion['outline']>('whole', 'as-needed'),
})

function share(least: number, most: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1000 }).map((step) => least + ((most - least) * step) / 1000)
}

/** The region on a quilt. */
export function regionOn(
  quilt: Quilt,
  { at, size, spokes, outline }: RegionShares,
  index: number,
): AvoidedRegion {
  const centre: Point = [at[0] * quilt.widthMm, at[1] * quilt.heightMm]
  const radius = size * Math.min(quilt.widthMm, quilt.heightMm)
  const common = { name: `region ${index + 1}`, outline }
  if (spokes.length === 0) return { ...common, kind: 'circle', centre, radius }
  const points = spokes.map((spoke, i): Point => {
    const turn = (2 * Math.PI * i) / spokes.length
    return [centre[0] + radius * spoke * Math.cos(turn), centre[1] + radius * spoke * Math.sin(turn)]
  })
  return { ...common, kind: 'polygon', points }
}

/** How deep a point lies inside a region, mm; 0 outside. Inside of a polygon: the edges wind round it. */
export function depthIn(region: AvoidedRegion, p: Point): number {
  if (region.kind === 'circle')
    return Math.max(0, region.radius - Math.hypot(p[0] - region.centre[0], p[1] - region.centre[1]))
  if (isBeside(region.points, p)) return 0
  let [turned, nearest] = [0, Infinity]
  region.points.forEach((a, i) => {
    const b = region.points[(i + 1) % region.points.length]!
    const [ax, ay, bx, by] = [a[0] - p[0], a[1] - p[1], b[0] - p[0], b[1] - p[1]]
    turned += Math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    nearest = Math.min(nearest, distanceToLine(p, a, b))
  })
  return Math.abs(turned) > Math.PI ? nearest : 0
}

/** Whether all of the points lie on one side of a place: above, below, to its left or to its right. */
const isBeside = (points: readonly Point[], [x, y]: Point): boolean =>
  points.every((p) => p[0] < x) ||
  points.every((p) => p[0] > x) ||
  points.every((p) => p[1] < y) ||
  points.every((p) => p[1] > y)
