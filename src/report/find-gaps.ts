import { type Gaps, gapsInField } from '../check/largest-gap.ts'
import type { Polyline } from '../check/polyline.ts'
import { layField } from '../check/stitch-field.ts'
import { boundsOf } from '../geometry/stroke.ts'
import type { Quilt } from '../quilt/quilt.ts'

/** The largest places without stitching: in the whole quilt less its binding, and in each band. */
export interface QuiltGaps {
  readonly whole: Gaps
  readonly bands: readonly Gaps[]
}

/** A gap is told to a fifth of a millimetre: less than a thread is wide. */
const EXACTNESS = { within: 0.2 }

/** Finds the largest gaps; a band that is not quilted is all gap. */
export function findGaps(polylines: readonly Polyline[], quilt: Quilt): QuiltGaps {
  const outermost = quilt.rings.at(-1)!
  const field = layField(polylines, boundsOf(outermost))
  return {
    whole: gapsInField(field, { rings: [outermost] }, EXACTNESS),
    bands: quilt.bands.map(({ index }) =>
      gapsInField(field, { rings: [quilt.rings[index + 1]!, quilt.rings[index]!] }, EXACTNESS),
    ),
  }
}
