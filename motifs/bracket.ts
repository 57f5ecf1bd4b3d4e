import { type Stroke, StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, type HalfRepeat, mirroredHalf } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Bracket',
  source: "a typographer's brace laid on its side, foot to foot; common practice",
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.5 }, min: inches(0.5), max: inches(8) },
    curl: { kind: 'ratio', label: 'Curl of the arms', default: 0.6, min: 0.2, max: 1 },
    points: { kind: 'choice', label: 'Points towards', default: 'outer', of: ['outer', 'inner'] },
  },
  suits: { min: inches(0.5), max: inches(2) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { repeat }) => Math.max(repeat, 1.5 * width),
  draw: (strip, { curl, points }) =>
    drawHalfRepeats(strip, (line, half) => line.follow(mirroredHalf(half, armOf(half, curl), points))),
})

/** From a foot up to a point: round out of the foot, along the arm, and sharply up into the point. */
function armOf({ step, width }: HalfRepeat, curl: number): Stroke {
  const [x, y] = [0.58 * step, 0.52 * width]
  const slope = (1 - curl) * 0.5 * (width / step)
  const [before, after] = [0.62 * x, 0.72 * (step - x)]
  return new StrokeBuilder([0, 0])
    .cubicTo([0, 0.62 * y], [x - before, y - slope * before], [x, y])
    .cubicTo([x + after, y + slope * after], [step, width - 0.7 * (width - y)], [step, width])
    .build()
}
