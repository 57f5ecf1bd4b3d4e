import type { Point } from '../src/geometry/point.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, type HalfRepeat } from '../src/motif/half-repeats.ts'
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
  suits: { min: inches(0.75), max: inches(4) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { repeat }) => Math.max(repeat, 0.8 * width),
  draw: (strip, { gable, hooks }) =>
    drawHalfRepeats(strip, (line, half) => {
      for (const p of half.to === hooks ? hook(half, gable) : upright(half, gable)) line.lineTo(p)
    }),
})

/** A half repeat is two units long. The bars lie on slight gables, so that only their peaks touch the seams. */
function upright({ step, width, at }: HalfRepeat, gable: number): Point[] {
  return [at(step / 2, gable * width), at(step / 2, width * (1 - gable)), at(step, width)]
}

/** Along the bar, into the hook, out of it again, and along the next bar; clear of the lines u = 0 and u = step. */
function hook({ step, width, at }: HalfRepeat, gable: number): Point[] {
  const rise = gable * width
  const [near, middle, far] = [CLEAR * step, step / 2, (1 - CLEAR) * step]
  return [
    at(far, rise),
    at(far, (2 * width) / 3),
    at(middle, (2 * width) / 3),
    at(middle, width / 3),
    at(near, width / 3),
    at(near, width - rise),
    at(step, width),
  ]
}
