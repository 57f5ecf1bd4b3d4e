import type { Point } from '../geometry/point.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Figure } from './figure.ts'
import { measureFiller } from './measure.ts'
import { inchText } from './size-text.ts'

/** A rectangle, mm. */
export interface Size {
  readonly width: number
  readonly height: number
}

/** A filler of one stroke in a rectangle by itself. */
export function patchFigure(stroke: Stroke, { width, height }: Size): Figure {
  const outline: Point[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]
  const margin = 0.02 * Math.max(width, height)
  return {
    label: `${inchText(width)} x ${inchText(height)} in`,
    view: { minX: -margin, minY: -margin, maxX: width + margin, maxY: height + margin },
    strokes: [stroke],
    seams: [outline],
    measures: measureFiller([stroke], { rings: [outline] }),
  }
}
