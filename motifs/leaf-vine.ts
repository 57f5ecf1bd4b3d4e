import type { Point } from '../src/geometry/point.ts'
import { cubic, splitAt } from '../src/geometry/segment.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { type Drawn, defineMotif, type Edge, type MitreStrip, type Strip } from '../src/motif/contract.ts'

/** The middle of the vine's swing and its reach, as shares of the width. */
const SWING = 0.27
/** A leaf's length, as a share of the room from the vine's crest to the far edge, and how far a pair is spread. */
const LEAF = 0.86
const SPREAD = 0.42

/** The length of the leaf beside a mitre, in widths. */
const CORNER_LEAF = 0.8

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
    const half = length / (halvesFor(strip) + FIRST - 0.5)
    const builder = stitchVine(strip, half, leaf)
    const [u, v] = builder.at
    const end: Point = [length, strip.to === 'inner' ? 0 : width]
    builder.cubicTo([u + half / 4, v], [length - half / 4, end[1]], end)
    return drawnIn(strip, builder)
  },
  drawToMitre: (strip, { leaf }) => {
    const { length, width, skew, to } = strip
    const last = Math.max(length + LAST[to](skew) * width, 0.45 * length)
    const builder = stitchVine(strip, last / (halvesFor(strip) - 1 + FIRST), leaf)
    leadToMitre(builder, strip, leaf)
    return drawnIn(strip, builder)
  },
})

/** How far beyond the inner corner the last crest lies, in widths: its leaves keep before the mitre. */
const LAST: Readonly<Record<Edge, (skew: number) => number>> = {
  inner: () => -0.45,
  outer: (skew) => 0.11 * skew - 0.36,
}

/** From the edge through the crests, with a pair of leaves on each. */
function stitchVine(strip: Strip, half: number, leaf: number): StrokeBuilder {
  const { width } = strip
  const builder = new StrokeBuilder([0, strip.from === 'inner' ? 0 : width])
  for (let i = 0; i < halvesFor(strip); i++) {
    const side = (strip.from === 'inner') === (i % 2 === 0) ? 1 : -1
    const crest: Point = [(i + FIRST) * half, width / 2 + side * SWING * width]
    const [u, v] = builder.at
    const reach = (i === 0 ? 0.5 : 0.45) * (crest[0] - u)
    builder.cubicTo([u + reach, v], [crest[0] - reach, crest[1]], crest)
    const drop = (i === 0 ? 0.8 : 1) * Math.min((0.5 + SWING) * width * LEAF, 1.6 * half)
    for (const lean of [-SPREAD, SPREAD])
      stitchLeaf(builder, [lean * Math.min(drop, half), -side * drop], leaf * Math.min(drop, half))
  }
  return builder
}

/** From the last crest into the corner, with one leaf that lies along the mitre. */
function leadToMitre(builder: StrokeBuilder, { length, width, skew, to }: MitreStrip, leaf: number): void {
  const from = builder.at
  const isOuter = to === 'outer'
  const corner: Point = isOuter ? [length + skew * width, width] : [length, 0]
  const run = corner[0] - from[0]
  const whole = cubic(
    [from[0] + 0.4 * run, from[1]],
    [corner[0] - 0.4 * run, corner[1] - (isOuter ? 0.12 * width : 0)],
    corner,
  )
  const [first, rest] = splitAt(from, whole, isOuter ? 0.66 : 0.5)
  builder.push(first)
  const size = ((isOuter ? -1 : 1) * CORNER_LEAF * width) / Math.hypot(1, skew)
  stitchLeaf(builder, [size * skew, size], CORNER_LEAF * width * Math.min(leaf, 0.32))
  builder.push(rest)
}

const drawnIn = ({ from, to }: Strip, builder: StrokeBuilder): Drawn => ({
  stroke: builder.build(),
  touches: [
    { edge: from, after: 0 },
    { edge: to, after: builder.count },
  ],
})
