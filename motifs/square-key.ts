import type { Point } from '../src/geometry/point.ts'
import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif, type Edge } from '../src/motif/contract.ts'
import { drawHalfRepeats, drawHalvesAt, type FollowHalf, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

/**
 * The corner's stairs, in widths: how far they keep from the mitre, at which heights they step, and the height at which
 * the line comes back.
 */
const STAIRS = { clear: 0.16, low: 0.4, high: 0.7, back: 0.35 }
/** The tooth in an outer corner, in widths; a blunter mitre than this has no room for it. */
const TOOTH = { low: 0.6, clear: 0.1, wide: 0.1, steep: 0.8 }
/** How much of the mitre's lean is made up before the unit that ends on its inner or outer corner. */
const SPREAD: Readonly<Record<Edge, number>> = { inner: 0.25, outer: 0 }

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
    const { length, width, skew, to } = strip
    const corner = length + (to === 'outer' ? skew * width : 0)
    // The corner unit takes up some of what the others would have to make up for the mitre's lean.
    const step = (length + (count > 1 ? SPREAD[to] * skew * width : 0)) / count
    const follow = followKey(values)
    return drawHalvesAt(
      strip,
      (line, half) => (isCorner(half) ? followCorner : follow)(line, half, values.gable),
      (i) => (i === count ? corner : step * i),
    )
  },
})

const isCorner = ({ lean, arrival }: HalfRepeat): boolean => lean > 0 || arrival > 0

const followKey =
  ({ gable, hooks }: { gable: number; hooks: Edge }): FollowHalf =>
  (line, half) => {
    const room = { width: half.width, step: half.step, rise: gable * half.width }
    const turns = half.to === hooks ? hook(room) : upright(room)
    for (const [x, y] of turns) line.lineTo(half.at(x, y))
    line.lineTo(half.at(half.step, half.width))
  }

/**
 * Into a corner: a hook whose far side goes up or down in stairs beside the mitre, so that with its mirror image it fills
 * the corner; then along the bar to the corner itself.
 */
function followCorner(line: StrokeBuilder, half: HalfRepeat, gable: number): void {
  const { width, lean, arrival } = half
  const isOuter = lean > 0
  const skew = isOuter ? lean : Math.tan(arrival)
  const inner = half.step - lean * width
  const clear = Math.min(STAIRS.clear * width, 0.4 * inner)
  /** The stairs' place at a height above the inner edge. */
  const stairs = (share: number) => inner + skew * share * width - clear
  const near = CLEAR * inner
  const rise = gable * width
  const [first, second] = isOuter ? [STAIRS.low, STAIRS.high] : [1 - STAIRS.high, 1 - STAIRS.low]
  const places = isOuter ? [stairs(0), stairs(first)] : [stairs(1 - first), stairs(1 - second)]
  const middle = (near + Math.min(...places)) / 2
  const turns: Point[] = [
    [places[0]!, rise],
    [places[0]!, first * width],
    [places[1]!, first * width],
    [places[1]!, second * width],
    [middle, second * width],
    [middle, STAIRS.back * width],
    [near, STAIRS.back * width],
    [near, width - rise],
    ...(isOuter && skew > TOOTH.steep ? tooth(inner + skew * TOOTH.low * width, { width, rise }) : []),
  ]
  for (const [x, y] of turns) line.lineTo(half.at(x, y))
  line.lineTo(half.at(half.step, width))
}

/** A tooth that hangs from the bar in an outer corner. @param mitre  where the mitre is at its low end, mm */
function tooth(mitre: number, { width, rise }: Omit<Room, 'step'>): Point[] {
  const right = mitre - TOOTH.clear * width
  const left = right - TOOTH.wide * width
  return [
    [left, width - rise],
    [left, TOOTH.low * width],
    [right, TOOTH.low * width],
    [right, width - rise],
  ]
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
