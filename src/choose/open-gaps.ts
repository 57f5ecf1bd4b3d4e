import { circleInField, type Gap } from '../check/largest-gap.ts'
import { ROUND } from '../check/metric.ts'
import { polylineOf } from '../check/polyline.ts'
import { boundaryOf, depthInside, type Region, regionArea, withoutPolygons } from '../check/region.ts'
import { layField, type StitchField } from '../check/stitch-field.ts'
import type { Point } from '../geometry/point.ts'
import { boundsOf, flattenStroke } from '../geometry/stroke.ts'
import type { Pieces } from '../pieces/pieces.ts'
import { outlineOf } from '../quilt/avoided-region.ts'
import type { Quilt } from '../quilt/quilt.ts'

/** A place without stitching that is larger than the batting allows. */
export interface OpenGap {
  /** The bands that it reaches into; -1 for the centre. */
  readonly bands: readonly number[]
  /** Its size over the limit. */
  readonly times: number
}

/** How far a chord may leave the curve, mm. */
const CHORD = 0.2
const EXACTNESS = { within: 0.5 }
/** A gap this little below the limit counts as past it, mm: the report measures more exactly. */
const CLOSE = 0.5

/**
 * Gaps past a limit in a quilt that is filled but has no line yet; the line adds no more than travel in seams. The
 * largest of the whole quilt first, regions that are kept free of stitching apart; if there is one, the largest of each band and across each seam as well.
 *
 * @param limit  mm
 */
export function openGaps({ quilt, pieces }: { quilt: Quilt; pieces: Pieces }, limit: number): OpenGap[] {
  const { rings, regions = [] } = quilt
  const kept = regions.map((region) => flattenStroke(outlineOf(region), CHORD).slice(1))
  const search = (field: StitchField, searched: readonly (readonly Point[])[]) =>
    largest(field, kept.length > 0 ? withoutPolygons({ rings: searched }, kept) : { rings: searched })
  const polylines = pieces.pieces.map(({ stroke }) => polylineOf(flattenStroke(stroke, CHORD)))
  const field = layField(polylines, boundsOf(rings.at(-1)!))
  const isFilled = pieces.pieces.some(({ band }) => band === -1)
  const inner = isFilled ? [] : [rings[0]!]
  const whole = search(field, [rings.at(-1)!, ...inner])
  if (!isOver(whole, limit)) return []
  const outward = rings.slice(1).map((outer, band) => ({ outer, band }))
  const single = outward.map(({ outer, band }) => search(field, [outer, rings[band]!]))
  const across = outward
    .slice(1)
    .map(({ outer, band }) => search(field, [outer, ...(band > 1 || !isFilled ? [rings[band - 1]!] : [])]))
  return [whole, ...single, ...across]
    .filter((gap) => isOver(gap, limit))
    .map((gap) => ({ bands: bandsAbout(gap, quilt), times: (gap.sizeMm + CLOSE) / limit }))
}

const NOTHING: Gap = { sizeMm: 0, at: [0, 0], atMostMm: 0 }

const largest = (field: StitchField, region: Region): Gap =>
  regionArea(region) > 0 ? circleInField(field, region, EXACTNESS) : NOTHING

const isOver = ({ sizeMm }: Gap, limit: number): boolean => sizeMm + CLOSE > limit

/** Less than this of a gap in a band is none, mm. */
const BARELY = 1

/** The bands that a gap's circle reaches into, from the inside out; -1 for the centre. */
export function bandsAbout({ at, sizeMm }: Pick<Gap, 'at' | 'sizeMm'>, { rings }: Quilt): number[] {
  const radius = sizeMm / 2 - BARELY
  const depths = rings.map((ring) => depthInside(boundaryOf({ rings: [ring] }), at, ROUND))
  return [-1, ...rings.slice(1).keys()].filter((band) => {
    const reachesIn = depths[band + 1]! > -radius
    const reachesOut = band < 0 || depths[band]! < radius
    return reachesIn && reachesOut
  })
}
