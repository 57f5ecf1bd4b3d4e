import { circleInField, type Gap, type Gaps, gapsInField } from '../check/largest-gap.ts'
import type { Polyline } from '../check/polyline.ts'
import { type Region, regionArea, withinPolygons, withoutPolygons } from '../check/region.ts'
import { layField } from '../check/stitch-field.ts'
import type { Point } from '../geometry/point.ts'
import { boundsOf, flattenStroke } from '../geometry/stroke.ts'
import { type AvoidedRegion, outlineOf, outsideOf } from '../quilt/avoided-region.ts'
import type { RegionFigures } from './region-figures.ts'

/** The largest places without stitching: in the whole quilt less its binding, in each band, and in each avoided region. */
export interface QuiltGaps {
  readonly whole: Gaps
  readonly bands: readonly Gaps[]
  /** The largest circle in each avoided region: its own size, whatever stitching its appliqué holds. */
  readonly regions: readonly Gap[]
}

/** A gap is told to a fifth of a millimetre: less than a thread is wide. */
const EXACTNESS = { within: 0.2 }
/** How far the chords of a region's edge may lie from it, mm. */
const CHORD = 0.05

const NOTHING: Gap = { sizeMm: 0, at: [Number.NaN, Number.NaN], atMostMm: 0 }
const NO_GAPS: Gaps = { circle: NOTHING, square: NOTHING }

/** What the gaps are found from. */
export interface GapTask {
  /** The stitching. */
  readonly chords: readonly Polyline[]
  /** The quilt's rings, from the centre's edge outward. */
  readonly rings: readonly (readonly Point[])[]
  /** What is kept free of stitching, and what of the edge of each is stitched. */
  readonly regions: readonly AvoidedRegion[]
  readonly edges: readonly RegionFigures[]
}

/**
 * Finds the largest gaps; a band that is not quilted is all gap. A region that is kept free of stitching, and whose edge is
 * stitched all round, is no gap of the quilting: its own size is told instead. One whose edge is not stitched all round is
 * part of the gap it lies in.
 */
export function findGaps({ chords, rings, regions, edges }: GapTask): QuiltGaps {
  const outermost = rings.at(-1)!
  const field = layField(chords, boundsOf(outermost))
  const outlined = regions.filter((_, i) => edges[i]?.isOutlined).map(chordsOf)
  const without = (region: Region) => (outlined.length > 0 ? withoutPolygons(region, outlined) : region)
  const gapsIn = (region: Region): Gaps =>
    regionArea(region) > 0 ? gapsInField(field, region, EXACTNESS) : NO_GAPS
  return {
    whole: gapsIn(without({ rings: [outermost] })),
    bands: rings.slice(1).map((outer, band) => gapsIn(without({ rings: [outer, rings[band]!] }))),
    regions: regions.map((_, index) => {
      const inQuilt = withinPolygons({ rings: [outermost] }, clusterOf(index, regions).map(chordsOf))
      return regionArea(inQuilt) > 0 ? circleInField(field, inQuilt, EXACTNESS) : NOTHING
    }),
  }
}

const chordsOf = (region: AvoidedRegion): Point[] => flattenStroke(outlineOf(region), CHORD).slice(1)

/** A region and all that overlap with it, directly or through others. */
function clusterOf(index: number, regions: readonly AvoidedRegion[]): AvoidedRegion[] {
  const cluster = new Set([regions[index]!])
  for (const region of cluster)
    for (const other of regions) if (!cluster.has(other) && overlap(region, other)) cluster.add(other)
  return [...cluster]
}

function overlap(a: AvoidedRegion, b: AvoidedRegion): boolean {
  const reaches = (from: AvoidedRegion, into: AvoidedRegion) => {
    const outside = outsideOf(into)
    return flattenStroke(outlineOf(from), CHORD).some((p) => outside(p) < 0)
  }
  return reaches(a, b) || reaches(b, a)
}
