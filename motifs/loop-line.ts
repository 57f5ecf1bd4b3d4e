import type { Point } from '../src/geometry/point.ts'
import { polar } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Loop line',
  source: 'circles joined by arcs and lines that touch them; common practice',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.6 }, min: inches(1), max: inches(8) },
    loop: { kind: 'ratio', label: 'Width of a loop, in widths', default: 0.56, min: 0.36, max: 0.6 },
  },
  suits: { min: inches(0.5), max: inches(2) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'smooth',
  // Closer together the loops would crowd, further apart the line would run along the seam.
  repeat: (width, { repeat }) => Math.min(Math.max(repeat, 2.4 * width), 4 * width),
  draw: (strip, { loop }) => drawHalfRepeats(strip, (line, half) => followLoop(line, half, loop)),
})

/**
 * From one seam to the other: up an arc into a round loop that all but reaches the far seam, once round, out along a
 * line and over an arc that touches the far seam. Angles are headings, from along the strip towards the far edge.
 */
function followLoop(line: StrokeBuilder, { step, width, frame, at }: HalfRepeat, loop: number): void {
  // Where a short side squeezes the repeat, loops and arcs shrink with it.
  const size = Math.min(width, step / 1.05)
  const radius = (loop * size) / 2
  const crest = 0.35 * size
  const centre: Point = [Math.max(0.28 * step, radius + 0.05 * size), width - 0.04 * size - radius]
  const approach = approachTo(centre, radius)
  const end: Point = [step, width - crest]
  const leave = commonTangent(centre, end, radius + crest)
  const turn = (middle: Point, r: number, sweep: number, heading: number) => {
    const to = polar(middle, r, heading - Math.PI / 2)
    line.push(arc(at(...to), at(...middle), sweep * frame.d))
  }
  turn([0, approach.radius], approach.radius, approach.heading, approach.heading)
  turn(centre, radius, 2 * Math.PI + leave - approach.heading, leave)
  line.lineTo(at(...polar(end, crest, leave + Math.PI / 2)))
  line.push(arc(at(step, width), at(...end), -leave * frame.d))
}

/** The arc that leaves [0, 0] along the edge and runs into the circle from inside: circles that touch internally. */
function approachTo([x, y]: Point, radius: number): { radius: number; heading: number } {
  const outer = (x * x + y * y - radius * radius) / (2 * (y - radius))
  return { radius: outer, heading: Math.atan2(x, outer - y) }
}

/** The heading of the line that crosses between two circles, touching both, whose radii add up to `radii`. */
function commonTangent(a: Point, b: Point, radii: number): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  return Math.atan2(dy, dx) + Math.asin(radii / Math.hypot(dx, dy))
}
