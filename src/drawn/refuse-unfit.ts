import { measureOverlap } from '../check/overlap.ts'
import { polylineOf } from '../check/polyline.ts'
import { scaling } from '../geometry/affine.ts'
import { distance, type Point } from '../geometry/point.ts'
import { flattenStroke, strokeLength, transformStroke } from '../geometry/stroke.ts'
import { refuseDrawing } from './drawing-fault.ts'
import type { RepeatShape } from './repeat-shape.ts'
import { twoRepeats } from './two-repeats.ts'

/** The band that a repeat is tried in, mm wide. */
const WIDTH = 50
/** The longest line of a repeat, in widths. */
const LONGEST = 300
/** The share of its line that a repeat may stitch twice, as a feather does. */
const RETRACE = 0.08
/** Closer than this to an edge it runs along it, and that may go on for so long; in widths. */
const ALONG = { within: 5e-4, most: 0.25 }

/**
 * Refuses a repeat that no band could be filled well with.
 *
 * @throws DrawingRefusal `drawing/too-long`, `drawing/along-seam`, `drawing/retraces`
 */
export function refuseUnfit(shape: RepeatShape): void {
  const stroke = twoRepeats(shape)
  const length = strokeLength(stroke) / 2
  if (length > LONGEST)
    refuseDrawing(
      'too-long',
      `the line of one repeat is ${Math.round(length)} times as long as the band is wide`,
      {
        hint: `at most ${LONGEST} times; draw less in it`,
      },
    )
  const points = flattenStroke(stroke, 1e-4)
  const isAt = (edge: 0 | 1, ...places: (Point | undefined)[]) =>
    places.every((p) => p !== undefined && Math.abs(p[1] - edge) < ALONG.within)
  let along = 0
  points.forEach((p, i) => {
    const before = points[i - 1]
    along = isAt(0, p, before) || isAt(1, p, before) ? along + distance(before!, p) : 0
    if (along > ALONG.most)
      refuseDrawing('along-seam', 'the path runs along the seam, where it would lie in the ditch', {
        hint: 'let it touch its lowest and its highest place and leave them again: bow the level stretch a little',
      })
  })
  const trial = transformStroke(stroke, scaling(WIDTH))
  const chords = polylineOf(flattenStroke(trial, 0.05))
  const share = measureOverlap([chords]).lengthMm / (2 * length * WIDTH)
  if (share > RETRACE)
    refuseDrawing('retraces', `the path lies on itself for ${Math.ceil(100 * share)} % of its length`, {
      hint: `at most ${100 * RETRACE} %: stitching over stitching shows`,
    })
}
