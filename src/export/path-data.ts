import { distance, type Point } from '../geometry/point.ts'
import { arcToCubics, type Segment } from '../geometry/segment.ts'
import type { Stroke } from '../geometry/stroke.ts'
import { numberText } from './number-text.ts'

/**
 * A stroke as SVG path data, curves and all.
 *
 * @param decimals  digits behind the point
 * @source SVG 2, 9.3 path data
 */
export function pathData(stroke: Stroke, decimals: number): string {
  return `M${pointText(stroke.start, decimals)}${segmentsData(stroke, decimals)}`
}

/** The same without the first move: to go on from where the path is. */
export function segmentsData(stroke: Stroke, decimals: number): string {
  let from = stroke.start
  let data = ''
  for (const segment of stroke.segments) {
    data += segmentData(from, segment, decimals)
    from = segment.to
  }
  return data
}

function segmentData(from: Point, segment: Segment, decimals: number): string {
  const text = (p: Point) => pointText(p, decimals)
  switch (segment.kind) {
    case 'line':
      return `L${text(segment.to)}`
    case 'cubic':
      return `C${text(segment.c1)} ${text(segment.c2)} ${text(segment.to)}`
    case 'arc': {
      // An arc of nearly a whole turn is ill defined by its ends alone.
      if (Math.abs(segment.sweep) > 6) {
        return arcToCubics(from, segment)
          .map((part) => segmentData(from, part, decimals))
          .join('')
      }
      const radius = numberText(distance(from, segment.centre), decimals + 1)
      const flags = `${Math.abs(segment.sweep) > Math.PI ? 1 : 0} ${segment.sweep > 0 ? 1 : 0}`
      return `A${radius} ${radius} 0 ${flags} ${text(segment.to)}`
    }
  }
}

const pointText = (p: Point, decimals: number): string =>
  `${numberText(p[0], decimals)} ${numberText(p[1], decimals)}`
