import type { Point } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif, type Strip } from '../src/motif/contract.ts'

/** The middle of the vine's swing and its reach, as shares of the width. */
const SWING = 0.27
/** A leaf's length, as a share of the room from the vine's crest to the far edge, and how far a pair is spread. */
const LEAF = 0.86
const SPREAD = 0.42

/** Where the first crest is, in half waves: a little late, so that its leaves clear the line from the edge. */
const FIRST = 0.72

/** Half waves along a strip: even if it returns to its edge, odd if it crosses. */
const halvesFor = ({ repeats, from, to }: Strip): number => 2 * repeats + (from === to ? 0 : 1)

/**
 * A leaf hanging from where the needle is: down its forward side to the tip and up the other side, back to the vine.
 *
 * @param tip  from the leaf's foot to its tip, mm
 * @param breadth  mm
 */
function stitchLeaf(builder: StrokeBuilder, tip: Point, breadth: number): void {
  const [u, v] = builder.at
  const at = (along: number, across: number): Point => [
    u + along * tip[0] + (across * breadth * Math.abs(tip[1])) / Math.hypot(...tip),
    v + along * tip[1] - (across * breadth * tip[0] * Math.sign(tip[1])) / Math.hypot(...tip),
  ]
  builder.cubicTo(at(0.22, 0.5), at(0.66, 0.85), at(1, 0))
  builder.cubicTo(at(0.66, -0.85), at(0.22, -0.5), [u, v])
}

export default defineMotif({
  title: 'leaf vine',
  source: 'a wave with a pair of leaves hung in each of its bays, each leaf stitched on the way',
  params: {
    leaf: { kind: 'ratio', label: 'Breadth of a leaf for its length', default: 0.3, min: 0.15, max: 0.45 },
  },
  suits: { min: 40, max: 200 },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width) => 1.7 * width,
  draw: (strip, { leaf }) => {
    const { length, width } = strip
    const halves = halvesFor(strip)
    const half = length / (halves + FIRST - 0.5)
    const v0 = strip.from === 'inner' ? 0 : width
    const builder = new StrokeBuilder([0, v0])
    for (let i = 0; i < halves; i++) {
      const side = (strip.from === 'inner') === (i % 2 === 0) ? 1 : -1
      const crest: Point = [(i + FIRST) * half, width / 2 + side * SWING * width]
      const [u, v] = builder.at
      const reach = (i === 0 ? 0.5 : 0.45) * (crest[0] - u)
      builder.cubicTo([u + reach, v], [crest[0] - reach, crest[1]], crest)
      const drop = (i === 0 ? 0.8 : 1) * Math.min((0.5 + SWING) * width * LEAF, 1.6 * half)
      for (const lean of [-SPREAD, SPREAD])
        stitchLeaf(builder, [lean * Math.min(drop, half), -side * drop], leaf * Math.min(drop, half))
    }
    const [u, v] = builder.at
    const end: Point = [length, strip.to === 'inner' ? 0 : width]
    builder.cubicTo([u + half / 4, v], [length - half / 4, end[1]], end)
    return {
      stroke: builder.build(),
      touches: [
        { edge: strip.from, after: 0 },
        { edge: strip.to, after: builder.count },
      ],
    }
  },
})
