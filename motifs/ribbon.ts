import { type Point, polar } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Ribbon',
  source: 'circular turns joined by the lines that touch them; common practice',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 0.9 }, min: inches(0.25), max: inches(5) },
    swell: { kind: 'ratio', label: 'Width of a turn, in half repeats', default: 1.15, min: 0.9, max: 1.25 },
  },
  closeness: 'repeat',
  suits: { min: inches(0.5), max: inches(2.5) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'smooth',
  // Past 1.2 widths it would be a wave.
  repeat: (width, { repeat }) => Math.min(repeat, 1.2 * width),
  draw: (strip, { swell }) => drawHalfRepeats(strip, (line, half) => followLimb(line, half, swell)),
})

/** Half a turn, a straight limb that leans back where the turns swell, and half a turn the other way. */
function followLimb(line: StrokeBuilder, { step, width, frame, at }: HalfRepeat, swell: number): void {
  // With (step^2 + width^2) / (4 width) the two turns would touch and leave no limb.
  const radius = Math.min((swell * step) / 2, (0.92 * (step * step + width * width)) / (4 * width))
  const [first, second]: [Point, Point] = [
    [0, radius],
    [step, width - radius],
  ]
  const [dx, dy] = [step, width - 2 * radius]
  const heading = Math.atan2(dy, dx) + Math.asin((2 * radius) / Math.hypot(dx, dy))
  line.push(arc(at(...polar(first, radius, heading - Math.PI / 2)), at(...first), heading * frame.d))
  line.lineTo(at(...polar(second, radius, heading + Math.PI / 2)))
  line.push(arc(at(step, width), at(...second), -heading * frame.d))
}
