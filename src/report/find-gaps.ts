import { type Gaps, gapsInField } from '../check/largest-gap.ts'
import type { Polyline } from '../check/polyline.ts'
import { layField } from '../check/stitch-field.ts'
import type { Point } from '../geometry/point.ts'
import { boundsOf } from '../geometry/stroke.ts'

/** The largest places without stitching: in the whole quilt less its binding, and in each band. */
export interface QuiltGaps {
  readonly whole: Gaps
  readonly bands: readonly Gaps[]
}

/** A gap is told to a fifth of a millimetre: less than a thread is wide. */
const EXACTNESS = { within: 0.2 }

/** What the gaps are found from: the stitching, and the quilt's rings from the centre's edge outward. */
export interface GapTask {
  readonly chords: readonly Polyline[]
  readonly rings: readonly (readonly Point[])[]
}

/** Finds the largest gaps; a band that is not quilted is all gap. */
export function findGaps({ chords, rings }: GapTask): QuiltGaps {
  const outermost = rings.at(-1)!
  const field = layField(chords, boundsOf(outermost))
  return {
    whole: gapsInField(field, { rings: [outermost] }, EXACTNESS),
    bands: rings
      .slice(1)
      .map((outer, band) => gapsInField(field, { rings: [outer, rings[band]!] }, EXACTNESS)),
  }
}
