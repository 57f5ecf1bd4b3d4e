import type { Point } from '../src/geometry/point.ts'
import { cubic } from '../src/geometry/segment.ts'
import { type Stroke, StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif, type Edge } from '../src/motif/contract.ts'
import {
  drawHalfRepeats,
  drawHalvesToMitre,
  type FollowHalf,
  type HalfRepeat,
  mirroredHalf,
} from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Bracket',
  source: "a typographer's brace laid on its side, foot to foot; common practice",
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.5 }, min: inches(0.5), max: inches(8) },
    curl: { kind: 'ratio', label: 'Curl of the arms', default: 0.6, min: 0.2, max: 1 },
    points: { kind: 'choice', label: 'Points towards', default: 'outer', of: ['outer', 'inner'] },
  },
  closeness: 'repeat',
  suits: { min: inches(0.5), max: inches(2) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { repeat }) => Math.max(repeat, 2 * width),
  draw: (strip, values) => drawHalfRepeats(strip, followArm(values)),
  drawToMitre: (strip, values) => drawHalvesToMitre(strip, followArm(values)),
})

const followArm =
  ({ curl, points }: { curl: number; points: Edge }): FollowHalf =>
  (line, half) => {
    const arm = half.lean
      ? leaningArmOf(half, { curl, leansInto: half.to === points ? 'point' : 'foot' })
      : armOf(half, curl)
    line.follow(mirroredHalf(half, arm, points))
  }

/** From a foot up to a point: round out of the foot, along the arm, and sharply up into the point. */
function armOf({ step, width }: { step: number; width: number }, curl: number): Stroke {
  const [x, y] = [0.58 * step, 0.52 * width]
  const slope = (1 - curl) * 0.5 * (width / step)
  const [before, after] = [0.62 * x, 0.72 * (step - x)]
  return new StrokeBuilder([0, 0])
    .cubicTo([0, 0.62 * y], [x - before, y - slope * before], [x, y])
    .cubicTo([x + after, y + slope * after], [step, width - 0.7 * (width - y)], [step, width])
    .build()
}

/** An arm whose point or foot lies in a mitre's outer corner: it leans over, the more the nearer it comes to the corner. */
function leaningArmOf(
  { step, width, lean }: HalfRepeat,
  { curl, leansInto }: { curl: number; leansInto: 'point' | 'foot' },
): Stroke {
  const room = Math.max(step - lean * width, 0.3 * step)
  const most = step - room
  const shiftAt = (y: number) =>
    leansInto === 'point' ? most * (y / width) ** 2 : most - most * (1 - y / width) ** 2
  const move = ([x, y]: Point): Point => [x + shiftAt(y), y]
  const { start, segments } = armOf({ step: room, width }, curl)
  return {
    start,
    segments: segments.map((s) => (s.kind === 'cubic' ? cubic(move(s.c1), move(s.c2), move(s.to)) : s)),
  }
}
