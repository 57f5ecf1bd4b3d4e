import type { Point } from '../src/geometry/point.ts'
import { scale, subtract } from '../src/geometry/point.ts'
import { cubic, type Segment, splitAt } from '../src/geometry/segment.ts'
import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif, type Strip } from '../src/motif/contract.ts'
import { drawHalfRepeats, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { inches } from '../src/units.ts'

/** Handle of the cubic that follows a quarter of an ellipse, as a part of the half axis: 4/3 tan(pi/8). */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8)
/** The most by which neighbouring S's may differ in sway, in spacings: they stay 0.75 apart, measured along the seam. */
const CALM = 0.25

export default defineMotif({
  title: 'S-echo',
  source: 'an elongated S and its echoes, a cubic to each half; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Spacing',
      default: inches(0.4),
      min: inches(0.2),
      max: inches(1),
    },
    sweep: { kind: 'ratio', label: 'Sway of the S, in widths', default: 0.085, min: 0, max: 0.2 },
  },
  closeness: 'spacing',
  suits: { min: inches(1.5), max: inches(6) },
  ends: 'alternate',
  bend: 'fan',
  joints: 'smooth',
  repeat: (_width, { spacing }) => 2 * spacing,
  draw: (strip, { sweep }) =>
    drawHalfRepeats(strip, (line, half) => {
      const sign = half.from === 'inner' ? 1 : -1
      followS(line, half, sign * swayOf(strip, half, sweep))
    }),
})

/** How far the S sways to each side, mm: none beside a mirror line, in full a few S's further on. */
function swayOf(strip: Strip, { step, width, index, count }: HalfRepeat, sweep: number): number {
  const steps = [strip.mirrorStart ? index : Infinity, strip.mirrorEnd ? count - 1 - index : Infinity]
  return Math.min(sweep * width, CALM * step * Math.min(...steps))
}

/** Half a turn, the S, half a turn. The S turns about its middle: its second half is its first half turned round. */
function followS(line: StrokeBuilder, { step, width, at }: HalfRepeat, sway: number): void {
  const [first, second] = halfS({ step, width, sway })
  const back = (p: Point): Point => at(step - p[0], width - p[1])
  const middle: Point = [step / 2, width / 2]
  line.cubicTo(at(...first.c1), at(...first.c2), at(...first.to))
  line.cubicTo(at(...second.c1), at(...second.c2), at(...middle))
  line.cubicTo(back(second.c2), back(second.c1), back(first.to))
  line.cubicTo(back(first.c2), back(first.c1), at(step, width))
}

/** Half a turn and the first half of the S, in the half repeat's own frame: rounded off an S that runs to the edge. */
function halfS({ step, width, sway }: { step: number; width: number; sway: number }): [Cubic, Cubic] {
  const [r, h] = [step / 2, width / 2]
  const lean = sway / (0.203 * h)
  const depth = Math.min(0.9 * r, 0.5 * h)
  const whole = cubic([r + 0.2 * h * lean, h / 3], [r + (h / 3) * lean, (2 * h) / 3], [r, h])
  const [{ to: end }, s] = splitAt([r, 0], whole, depth / h) as [Cubic, Cubic]
  const along = subtract(s.c1, end)
  const turn = cubic([QUARTER * r, 0], subtract(end, scale(along, (QUARTER * depth) / along[1])), end)
  return [turn as Cubic, s]
}

type Cubic = Segment & { kind: 'cubic' }
