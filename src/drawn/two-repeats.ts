import { translation } from '../geometry/affine.ts'
import { joinStrokes, type Stroke, transformStroke } from '../geometry/stroke.ts'
import type { RepeatShape } from './repeat-shape.ts'

/** Two repeats one after the other, in widths. */
export function twoRepeats(shape: RepeatShape): Stroke {
  const once = shape.kind === 'free' ? shape.repeat : joinStrokes([shape.rise, shape.fall])
  return joinStrokes([once, transformStroke(once, translation(shape.length, 0))])
}
