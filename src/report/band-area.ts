import { regionArea, withoutPolygons } from '../check/region.ts'
import { flattenStroke } from '../geometry/stroke.ts'
import { outlineOf } from '../quilt/avoided-region.ts'
import { outlineArea } from '../quilt/outline.ts'
import type { Quilt } from '../quilt/quilt.ts'

/** Area of a band between its two seams, mm². */
export const bandArea = (quilt: Quilt, index: number): number =>
  Math.abs(outlineArea(quilt.rings[index + 1]!)) - Math.abs(outlineArea(quilt.rings[index]!))

/** Area of a band outside of the regions that are kept free of stitching, mm². */
export function openArea(quilt: Quilt, index: number): number {
  const { regions = [] } = quilt
  if (regions.length === 0) return bandArea(quilt, index)
  const outlines = regions.map((region) => flattenStroke(outlineOf(region), CHORD).slice(1))
  return regionArea(withoutPolygons({ rings: [quilt.rings[index + 1]!, quilt.rings[index]!] }, outlines))
}

/** How far the chords of a region's edge may lie from it, mm. */
const CHORD = 0.05
