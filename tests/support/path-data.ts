import { distance } from '../../src/geometry/point.ts'
import { pointAt, type Segment } from '../../src/geometry/segment.ts'
import { eachSegment, type Stroke } from '../../src/geometry/stroke.ts'

/** The stroke as SVG path data, written plainly for independent readers: M, L, A and C with absolute numbers. */
export function pathDataOf(stroke: Stroke): string {
  const commands = [`M ${stroke.start.join(' ')}`]
  eachSegment(stroke, (from, segment) => {
    commands.push(...commandsOf(from, segment))
  })
  return commands.join(' ')
}

/** An arc is written as two, so that none reaches the half turn at which SVG's flags turn ambiguous. */
function commandsOf(from: readonly [number, number], segment: Segment): string[] {
  if (segment.kind === 'line') return [`L ${segment.to.join(' ')}`]
  if (segment.kind === 'cubic')
    return [`C ${segment.c1.join(' ')} ${segment.c2.join(' ')} ${segment.to.join(' ')}`]
  const radius = distance(from, segment.centre)
  const clockwise = segment.sweep > 0 ? 1 : 0
  const large = Math.abs(segment.sweep) / 2 > Math.PI ? 1 : 0
  return [pointAt(from, segment, 0.5), segment.to].map(
    (to) => `A ${radius} ${radius} 0 ${large} ${clockwise} ${to.join(' ')}`,
  )
}
