import { distance } from '../../geometry/point.ts'
import { type Quad, strokeOntoQuad } from '../../geometry/quad.ts'
import type { CornerMotif } from '../../motif/corner-contract.ts'
import { definePatchFiller, type PatchFiller } from './contract.ts'

/**
 * A corner motif as a filler for four-cornered patches: one stroke that comes back to the corner where it began, so that the
 * line goes on from there.
 */
export const asPatchFiller = ({ title, source, params, draw }: CornerMotif): PatchFiller =>
  definePatchFiller({
    title,
    source,
    params,
    ditch: false,
    leadsTo: () => [0],
    draw(corners, values) {
      const quad = corners as Quad
      const [a, b, , d] = quad
      const [width, height] = [distance(a, b), distance(a, d)]
      const stroke = draw({ width, height, entry: [0, 0], exit: [0, 0] }, values)
      return [strokeOntoQuad(stroke, { quad, width, height })]
    },
  })
