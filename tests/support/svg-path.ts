import { eachSegment, type Stroke } from '../../src/geometry/stroke.ts'

/** The stroke as SVG path data, every number in full, for readers that we did not write. */
export function svgPathOf(stroke: Stroke): string {
  const parts = [`M${stroke.start.join(' ')}`]
  eachSegment(stroke, (from, segment) => {
    const to = segment.to.join(' ')
    if (segment.kind === 'line') parts.push(`L${to}`)
    if (segment.kind === 'cubic') parts.push(`C${segment.c1.join(' ')} ${segment.c2.join(' ')} ${to}`)
    if (segment.kind === 'arc') {
      const radius = Math.hypot(from[0] - segment.centre[0], from[1] - segment.centre[1])
      const large = Math.abs(segment.sweep) > Math.PI ? 1 : 0
      parts.push(`A${radius} ${radius} 0 ${large} ${segment.sweep > 0 ? 1 : 0} ${to}`)
    }
  })
  return parts.join('')
}
