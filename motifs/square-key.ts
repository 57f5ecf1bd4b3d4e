import type { Point } from '../src/geometry/point.ts'
import { defineMotif, type Edge } from '../src/motif/contract.ts'
import { drawHalfRepeats, drawHalvesAt, type FollowHalf } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

/** How far a hook keeps from the ends of its half repeat, where it may meet its mirror image; a part of it. */
const CLEAR = 0.12

export default defineMotif({
  title: 'Square key',
  source: 'the Greek key: a running meander, four units long and three high, on a square grid',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 1.4 }, min: inches(0.75), max: inches(8) },
    gable: { kind: 'ratio', label: 'Height of a bar, in widths', default: 0.025, min: 0.015, max: 0.1 },
    hooks: { kind: 'choice', label: 'Hooks open towards', default: 'inner', of: ['inner', 'outer'] },
  },
  closeness: 'repeat',
  suits: { min: inches(0.75), max: inches(4) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { repeat }) => Math.max(repeat, 0.8 * width),
  draw: (strip, values) => drawHalfRepeats(strip, followKey(values)),
  drawToMitre: (strip, values) => {
    const count = 2 * strip.repeats
    const corner = strip.length + (strip.to === 'outer' ? strip.skew * strip.width : 0)
    const step = strip.length / count
    return drawHalvesAt(strip, followKey(values, step), (i) => (i === count ? corner : step * i))
  },
})

/** @param step  mm, if the last half repeat is longer than the others: its bar is, the rest keeps its place */
const followKey =
  ({ gable, hooks }: { gable: number; hooks: Edge }, step?: number): FollowHalf =>
  (line, half) => {
    const rise = gable * half.width
    const room = { width: half.width, step: step ?? half.step, rise }
    const turns = half.to === hooks ? hook(room) : upright(room)
    for (const [x, y] of turns) line.lineTo(half.at(x, y))
    line.lineTo(half.at(half.step, half.width))
  }

interface Room {
  readonly step: number
  readonly width: number
  /** mm from a bar's ends to the seam that its peak touches. */
  readonly rise: number
}

/** Along half a bar, and straight across. */
const upright = ({ step, width, rise }: Room): Point[] => [
  [step / 2, rise],
  [step / 2, width - rise],
]

/** Along the bar, into the hook, and out of it again; clear of both ends of the half repeat. */
function hook({ step, width, rise }: Room): Point[] {
  const [near, middle, far] = [CLEAR * step, step / 2, (1 - CLEAR) * step]
  return [
    [far, rise],
    [far, (2 * width) / 3],
    [middle, (2 * width) / 3],
    [middle, width / 3],
    [near, width / 3],
    [near, width - rise],
  ]
}
