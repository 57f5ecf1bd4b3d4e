import { gapsInField } from '../check/largest-gap.ts'
import { measureOverlap } from '../check/overlap.ts'
import { type Region, regionArea } from '../check/region.ts'
import { layField } from '../check/stitch-field.ts'
import { checkWalkingFoot } from '../check/walking-foot.ts'
import { distance } from '../geometry/point.ts'
import { boundsOf, endOf, type Stroke, strokeLength } from '../geometry/stroke.ts'
import { chordsOf } from '../report/measure-line.ts'
import type { Line } from '../stitch/line.ts'

/** What is measured on a filler as it is drawn. */
export interface Measures {
  /** Stitched length for each square centimetre, mm. */
  readonly mmPerCm2: number
  /** Diameter of the largest circle that no stitching enters, mm. */
  readonly gapMm: number
  /** Radius of the tightest curve, mm; Infinity where all is straight. */
  readonly radiusMm: number
  /** The share of the line that lies on an earlier part of it. */
  readonly retraceShare: number
}

/** Strokes that meet within this are one line, mm. */
const MEETING = 1e-3
/** A gap is told to a fifth of a millimetre. */
const EXACTNESS = { within: 0.2 }

/**
 * Measures a filler's strokes in the region that they fill.
 *
 * @param strokes  in the order in which they are stitched
 */
export function measureFiller(strokes: readonly Stroke[], region: Region): Measures {
  const lines = linesOf(strokes)
  const chords = chordsOf(lines)
  const lengthMm = strokes.reduce((sum, stroke) => sum + strokeLength(stroke), 0)
  const field = layField(chords, boundsOf(region.rings.flat()))
  const radii = checkWalkingFoot(lines).map(({ smallestRadius }) => smallestRadius)
  return {
    mmPerCm2: lengthMm / (regionArea(region) / 100),
    gapMm: gapsInField(field, region, EXACTNESS).circle.sizeMm,
    radiusMm: Math.min(...radii),
    retraceShare: measureOverlap(chords).lengthMm / lengthMm,
  }
}

/** Strokes that begin where the one before ended, as lines. */
function linesOf(strokes: readonly Stroke[]): Line[] {
  const runs: Stroke[][] = []
  for (const stroke of strokes) {
    const last = runs.at(-1)?.at(-1)
    if (last && distance(endOf(last), stroke.start) <= MEETING) runs.at(-1)!.push(stroke)
    else runs.push([stroke])
  }
  return runs.map((run) => ({
    thread: 'black',
    parts: run.map((stroke) => ({ kind: 'fill', band: 0, area: 0, stroke })),
  }))
}
