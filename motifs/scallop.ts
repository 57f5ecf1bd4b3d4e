import { type Stroke, StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import {
  drawHalfRepeats,
  drawHalvesToMitre,
  type HalfRepeat,
  mirroredHalf,
} from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

/** Handle of the cubic that follows a quarter of an ellipse, as a part of the half axis: 4/3 tan(pi/8). */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8)

export default defineMotif({
  title: 'Scallop',
  source: 'circular arc on a chord (intersecting chords, Euclid III.35); common practice',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 3 }, min: inches(0.5), max: inches(16) },
    crowns: { kind: 'choice', label: 'Crowns towards', default: 'outer', of: ['outer', 'inner'] },
  },
  closeness: 'repeat',
  suits: { min: inches(0.5), max: inches(4) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'cusped',
  // Never narrower than half circles: taller arches would run side by side into their cusps.
  repeat: (width, { repeat }) => Math.max(repeat, 2 * width),
  draw: (strip, { crowns }) =>
    drawHalfRepeats(strip, (line, half) => line.follow(mirroredHalf(half, riseOf(half), crowns))),
  drawToMitre: (strip, { crowns }) =>
    drawHalvesToMitre(strip, (line, half) => {
      const isCuspInCorner = half.lean > 0 && half.to !== crowns
      line.follow(mirroredHalf(half, isCuspInCorner ? riseFromCorner(half) : riseOf(half), crowns))
    }),
})

/** From a cusp up to a crown: half of a circular arc, or a quarter of an ellipse where a stretch is too short. */
function riseOf({ step, width }: HalfRepeat): Stroke {
  const line = new StrokeBuilder([0, 0])
  if (step < width) {
    return line.cubicTo([0, width * QUARTER], [step * (1 - QUARTER), width], [step, width]).build()
  }
  const slope = 2 * Math.atan(width / step)
  return line.arcAlong([Math.cos(slope), Math.sin(slope)], [step, width]).build()
}

/** From a cusp in the outer corner, where an arc would cross the mitre: out at a narrow angle to it. */
function riseFromCorner({ step, width, lean }: HalfRepeat): Stroke {
  const out = 0.4 * width
  const under = Math.min(step, Math.max(0.55 * step, 1.02 * lean * width))
  return new StrokeBuilder([0, 0]).cubicTo([1.8 * out * lean, out], [under, width], [step, width]).build()
}
