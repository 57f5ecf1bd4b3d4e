import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Piano keys',
  source: 'parallel lines square to the seam, joined by shallow bows; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Spacing',
      default: inches(0.5),
      min: inches(0.2),
      max: inches(2),
    },
    bow: { kind: 'ratio', label: 'Height of a bow, in spacings', default: 0.14, min: 0.06, max: 0.4 },
  },
  closeness: 'spacing',
  suits: { min: inches(1), max: inches(8) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'cusped',
  repeat: (_width, { spacing }) => 2 * spacing,
  draw: (strip, { bow }) => drawHalfRepeats(strip, (line, half) => followKey(line, half, bow)),
})

/** Half a bow off the seam, the line across, and half a bow to the other seam, which it touches in its middle. */
function followKey(line: StrokeBuilder, { step, width, at }: HalfRepeat, bow: number): void {
  const rise = Math.min(bow * step, width / 4)
  line.arcAlong([1, 0], at(step / 2, rise)).lineTo(at(step / 2, width - rise))
  const slope = 2 * Math.atan((2 * rise) / step)
  const tangent = at(Math.cos(slope), Math.sin(slope))
  const origin = at(0, 0)
  line.arcAlong([tangent[0] - origin[0], tangent[1] - origin[1]], at(step, width))
}
