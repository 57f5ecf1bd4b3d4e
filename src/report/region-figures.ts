import { segmentLength } from '../geometry/segment.ts'
import { strokeLength } from '../geometry/stroke.ts'
import { edgeRuns } from '../quilt/avoided-region.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Line } from '../stitch/line.ts'

/** How much of the edge of a region that is kept free of stitching is stitched. */
export interface RegionFigures {
  /** Length of its edge within the quilt and outside of other regions, mm. */
  readonly edgeMm: number
  /** Length that is stitched because its outline is asked for, mm. */
  readonly outlinedMm: number
  /** Length of line along its edge to get round it, mm. */
  readonly roundMm: number
  /** Whether its whole edge is stitched. */
  readonly isOutlined: boolean
}

/** An edge counts as stitched all round if no more than this is missing, mm. */
const MISSING = 0.5

/** What of each region's edge is stitched, by the region's index. */
export function regionFigures(lines: readonly Line[], { regions = [], rings }: Quilt): RegionFigures[] {
  const runs = edgeRuns(regions, rings.at(-1)!)
  const parts = lines.flatMap((line) => line.parts)
  const along = (kind: 'ditch' | 'travel', index: number) =>
    parts
      .filter((part) => part.kind === kind && part.region === index)
      .reduce((sum, { stroke }) => sum + strokeLength(stroke), 0)
  return regions.map((_, index) => {
    const edgeMm = runs
      .filter(({ region }) => region === index)
      .reduce((sum, { from, segment }) => sum + segmentLength(from, segment), 0)
    const outlinedMm = along('ditch', index)
    return {
      edgeMm,
      outlinedMm,
      roundMm: along('travel', index),
      isOutlined: edgeMm > 0 && outlinedMm > edgeMm - MISSING,
    }
  })
}
