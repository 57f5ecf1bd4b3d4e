import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawFannedHalves, drawHalfRepeats, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { followRoundLimb } from '../src/motif/round-limb.ts'
import { inches } from '../src/units.ts'

/** The part of the room before a mitre that a turn takes up at most, so that it does not meet its mirror image. */
const CLEAR = 0.88

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
  drawToMitre: (strip, { swell }) => drawFannedHalves(strip, (line, half) => followLimb(line, half, swell)),
})

/**
 * Half a turn, a straight limb that leans back where the turns swell, and half a turn the other way. Each turn is as wide
 * as the room on its own edge.
 */
function followLimb(line: StrokeBuilder, half: HalfRepeat, swell: number): void {
  const [radius, crest] = turnsOf(half, swell)
  followRoundLimb(line, half, { turn: { centre: [0, radius], radius }, from: 0, rounds: 0, crest })
}

/** The radii of a half repeat's two turns, mm: made smaller alike where they would touch and leave no limb. */
function turnsOf({ step, width, room, clear }: HalfRepeat, swell: number): [number, number] {
  const radius = (edge: 'from' | 'to') => Math.min((swell * room[edge]) / 2, CLEAR * clear[edge])
  const [r, s] = [radius('from'), radius('to')]
  // With (step^2 + width^2) / (2 width) for their sum they would touch.
  const most = (0.92 * (step * step + width * width)) / (2 * width)
  const k = Math.min(1, most / (r + s))
  return [k * r, k * s]
}
