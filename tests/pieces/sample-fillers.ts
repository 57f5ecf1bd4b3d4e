import { StrokeBuilder } from '../../src/geometry/stroke.ts'
import { defineMotif, type Motif, type Touch } from '../../src/motif/contract.ts'
import type { Filler } from '../../src/motif/draw-stretch.ts'

const vOf = (edge: 'inner' | 'outer', width: number) => (edge === 'inner' ? 0 : width)

/** Straight lines from edge to edge: the plainest filler that alternates. */
const zigzag = (bend: 'corner' | 'fan') =>
  defineMotif({
    title: 'Zigzag',
    source: 'straight lines',
    params: {},
    suits: { min: 1, max: 1000 },
    ends: 'alternate',
    bend,
    joints: 'cusped',
    repeat: (width) => 2 * width,
    draw: ({ length, width, from, repeats }) => {
      const line = new StrokeBuilder([0, vOf(from, width)])
      const touches: Touch[] = [{ edge: from, after: 0 }]
      const halves = Math.round(2 * repeats)
      for (let i = 1; i <= halves; i++) {
        const edge = (i % 2 === 1) === (from === 'inner') ? 'outer' : 'inner'
        line.lineTo([(length * i) / halves, vOf(edge, width)])
        touches.push({ edge, after: line.count })
      }
      return { stroke: line.build(), touches }
    },
  })

/** A gentle S through the middle of the strip, whatever the edges. */
const drift = defineMotif({
  title: 'Drift',
  source: 'one cubic',
  params: {},
  suits: { min: 1, max: 1000 },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width) => 3 * width,
  draw: ({ length, width, from, to }) => {
    const [a, b] = [vOf(from, width), vOf(to, width)]
    const stroke = new StrokeBuilder([0, a])
      .cubicTo([length / 3, a], [length / 3, width / 2], [length / 2, width / 2])
      .cubicTo([(2 * length) / 3, width / 2], [(2 * length) / 3, b], [length, b])
      .build()
    return {
      stroke,
      touches: [
        { edge: from, after: 0 },
        { edge: to, after: 2 },
      ],
    }
  },
})

const filler = (name: string, motif: Motif): Filler => ({ name, motif, values: {} })

/** Fillers of every nature that the pieces know: cusped and smooth, alternating and free, leaning and fanned. */
export const SAMPLE_FILLERS: readonly Filler[] = [
  filler('zigzag', zigzag('corner')),
  filler('fan', zigzag('fan')),
  filler('drift', drift),
]
