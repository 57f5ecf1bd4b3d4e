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

/** What the gaps are found from: the stitching, and the quilt's rings from the centre's edge outward. */
export interface GapTask {
  readonly chords: readonly Polyline[]
  readonly rings: readonly (readonly Point[])[]
  readonly regions?: readonly GapRegion[]
}

/** A region that is kept free of stitching. */
interface GapRegion {
  /** The outlines of it and of all that overlap with it. */
  readonly covered: readonly (readonly Point[])[]
  /** Its own outline, if that is stitched all round. */
  readonly stitched: readonly Point[] | undefined
}

/** A gap is told to a fifth of a millimetre: less than a thread is wide. */
const EXACTNESS = { within: 0.2 }
/** How far the chords of a region's edge may lie from it, mm. */
const CHORD = 0.05

const NOTHING: Gap = { sizeMm: 0, at: [Number.NaN, Number.NaN], atMostMm: 0 }
const NO_GAPS: Gaps = { circle: NOTHING, square: NOTHING }

/**
 * Finds the largest gaps; a band that is not quilted is all gap. A region that is kept free of stitching, and whose edge is
 * stitched all round, is no gap of the quilting: its own size is told instead. One whose edge is not stitched all round is
 * part of the gap it lies in.
 */
export function findGaps({ chords, rings, regions = [] }: GapTask): QuiltGaps {
  const outermost = rings.at(-1)!
  const field = layField(chords, boundsOf(outermost))
  const stitched = regions.flatMap((region) => (region.stitched ? [region.stitched] : []))
  const without = (region: Region) => (stitched.length > 0 ? withoutPolygons(region, stitched) : region)
  const gapsIn = (region: Region): Gaps => {
    const open = without(region)
    return open.rings.length > 0 ? gapsInField(field, open, EXACTNESS) : NO_GAPS
  }
  return {
    whole: gapsIn({ rings: [outermost] }),
    bands: rings.slice(1).map((outer, band) => gapsIn({ rings: [outer, rings[band]!] })),
    regions: regions.map(({ covered }) => {
      const inQuilt = withinPolygons({ rings: [outermost] }, covered)
      return regionArea(inQuilt) > 0 ? circleInField(field, inQuilt, EXACTNESS) : NOTHING
    }),
  }
}

/** What the search for gaps needs to know of the regions. */
export const gapRegions = (
  regions: readonly AvoidedRegion[],
  figures: readonly RegionFigures[],
): GapRegion[] =>
  regions.map((region, i) => ({
    covered: clusterOf(region, regions).map(cornersOf),
    stitched: figures[i]?.isOutlined ? cornersOf(region) : undefined,
  }))

const cornersOf = (region: AvoidedRegion): Point[] => flattenStroke(outlineOf(region), CHORD).slice(1)

/** A region and all that overlap with it, directly or through others. */
function clusterOf(region: AvoidedRegion, regions: readonly AvoidedRegion[]): AvoidedRegion[] {
  const cluster = new Set([region])
  for (const member of cluster)
    for (const other of regions) if (!cluster.has(other) && overlap(member, other)) cluster.add(other)
  return [...cluster]
}

function overlap(a: AvoidedRegion, b: AvoidedRegion): boolean {
  const reaches = (from: AvoidedRegion, into: AvoidedRegion) => {
    const outside = outsideOf(into)
    return flattenStroke(outlineOf(from), CHORD).some((p) => outside(p) < 0)
  }
  return reaches(a, b) || reaches(b, a)
}
