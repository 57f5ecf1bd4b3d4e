import { distance, type Point, scale, subtract } from '../../geometry/point.ts'
import { transformStroke } from '../../geometry/stroke.ts'
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
      const [a, b, , d] = corners as readonly [Point, Point, Point, Point]
      const [width, height] = [distance(a, b), distance(a, d)]
      const stroke = draw({ width, height, entry: [0, 0], exit: [0, 0] }, values)
      const [across, down] = [scale(subtract(b, a), 1 / width), scale(subtract(d, a), 1 / height)]
      return [
        transformStroke(stroke, { a: across[0], b: across[1], c: down[0], d: down[1], e: a[0], f: a[1] }),
      ]
    },
  })
