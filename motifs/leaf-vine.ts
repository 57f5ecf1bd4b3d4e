import type { Point } from '../src/geometry/point.ts'
import { cubic, splitAt } from '../src/geometry/segment.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { type Drawn, defineMotif, type Edge, type MitreStrip, type Strip } from '../src/motif/contract.ts'

/** The middle of the vine's swing and its reach, as shares of the width. */
const SWING = 0.27
/** A leaf's length, as a share of the room from the vine's crest to the far edge, and how far a pair is spread. */
const LEAF = 0.86
const SPREAD = 0.42

/** How far a leaf at an end on an edge reaches across, in widths, and how far it leans. */
const END_LEAF = 0.72
const END_SPREAD = 0.36
/** How far it keeps from its mirror image, for its length along. */
const APART = 0.08
/** The length of the leaf beside a mitre, in widths. */
const CORNER_LEAF = 0.8
/** How far its foot is from the mitre at least, in widths. */
const CLEAR = 0.13

/** How far the first crest lies from an end on an edge, in half waves: the vine comes from further away there. */
const FIRST = 0.9
/** The least half wave that leaves have room in, in widths. */
const NARROWEST = 0.56
/** The highest that a vine without crests rises from its edge, and the length of its one leaf, in widths. */
const BOW = 0.14
const LONE_LEAF = 0.7
/** A vine without crests that is shorter, in widths, has no leaves at its ends. */
const BARE = 0.6

/**
 * How many crests the vine has, so that none is narrower than leaves need: none at all, if there is no room for one.
 *
 * @param wanted  even or odd, as its two ends need
 * @param room  the length, mm, of one half wave less than there are crests, and of `ends` more
 */
function crestsFor(
  wanted: number,
  { length, width, ends }: { length: number; width: number; ends: number },
): number {
  const most = length / (NARROWEST * width) + 1 - ends
  let count = wanted
  while (count > 0 && count > most) count -= 2
  return Math.max(count, 0)
}

/**
 * A leaf hanging from where the needle is: down its forward side to the tip and up the other side, back to the vine.
 *
 * @param tip  from the leaf's foot to its tip, mm
 * @param breadth  mm
 */
function stitchLeaf(builder: StrokeBuilder, tip: Point, breadth: number): void {
  const at = leafPlaces(builder.at, tip, breadth)
  builder.cubicTo(at(0.22, 0.5), at(0.66, 0.85), at(1, 0))
  builder.cubicTo(at(0.66, -0.85), at(0.22, -0.5), at(0, 0))
}

/** Places of a leaf with its foot at [u, v], in its length along it and in its breadth across. */
function leafPlaces([u, v]: Point, tip: Point, breadth: number): (along: number, across: number) => Point {
  const size = breadth / Math.hypot(...tip)
  return (along, across) => [
    u + along * tip[0] + across * size * Math.abs(tip[1]),
    v + along * tip[1] - across * size * tip[0] * Math.sign(tip[1]),
  ]
}

export default defineMotif({
  title: 'Leaf vine',
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
    const { length, width, repeats, from, to } = strip
    const count = crestsFor(2 * repeats - (from === to ? 1 : 0), { length, width, ends: 2 * FIRST })
    if (count === 0 && from === to) return drawLoneLeaf(strip, leaf)
    if (count === 0 && length < BARE * width) return drawBare(strip)
    const half = length / (count - 1 + 2 * FIRST)
    const builder = stitchVine(strip, { count, half, leaf })
    const [u, v] = builder.at
    const end: Point = [length, heightOf(to, width)]
    const reach = 0.45 * (length - u)
    builder.cubicTo([u + reach, v], [length - reach, end[1]], end)
    stitchEndLeaf(builder, { half, leaf, width, forward: -1 })
    return drawnIn(strip, builder)
  },
  drawToMitre: (strip, { leaf }) => {
    const { length, width, skew, repeats, from, to } = strip
    const last = Math.max(length + LAST[to](skew) * width, 0.45 * length)
    const count = crestsFor(2 * repeats + (from === to ? 0 : 1), { length: last, width, ends: FIRST })
    if (count === 0) return drawShortToMitre(strip, leaf)
    const builder = stitchVine(strip, { count, half: last / (count - 1 + FIRST), leaf })
    leadToMitre(builder, strip, leaf)
    return drawnIn(strip, builder)
  },
})

/** A low bow from an edge back to it, with one leaf on it that stands straight up. */
function drawLoneLeaf(strip: Strip, leaf: number): Drawn {
  const { length, width, from } = strip
  const edge = heightOf(from, width)
  const side = from === 'inner' ? 1 : -1
  const rise = Math.min(BOW * width, 0.25 * length)
  const builder = new StrokeBuilder([0, edge])
  const crest: Point = [length / 2, edge + side * rise]
  builder.cubicTo([0.2 * length, edge], [0.3 * length, crest[1]], crest)
  const size = Math.min(LONE_LEAF * width, 1.6 * length)
  stitchLeaf(builder, [0, side * size], Math.min(leaf * size, 0.5 * length))
  builder.cubicTo([0.7 * length, crest[1]], [0.8 * length, edge], [length, edge])
  return drawnIn(strip, builder)
}

/** From edge to edge without leaves. */
function drawBare(strip: Strip): Drawn {
  const { length, width, from, to } = strip
  const [start, end] = [heightOf(from, width), heightOf(to, width)]
  const builder = new StrokeBuilder([0, start])
  builder.cubicTo([0.45 * length, start], [0.55 * length, end], [length, end])
  return drawnIn(strip, builder)
}

/** Up to a mitre without a crest: a leaf where it begins, and a bow, if it comes back to its edge. */
function drawShortToMitre(strip: MitreStrip, leaf: number): Drawn {
  const { length, width, skew, from, to } = strip
  const edge = heightOf(from, width)
  const builder = new StrokeBuilder([0, edge])
  if (length >= BARE * width) stitchEndLeaf(builder, { half: length, leaf, width, forward: 1 })
  if (from === to) {
    const crest: Point = [
      0.35 * (length + (to === 'outer' ? skew * width : 0)),
      edge + (from === 'inner' ? 1 : -1) * Math.min(BOW * width, 0.25 * length),
    ]
    builder.cubicTo([0.5 * crest[0], edge], [0.5 * crest[0], crest[1]], crest)
  }
  // Out to the outer corner it runs along the mitre itself, and has no leaf there.
  if (from === to || to === 'inner') leadToMitre(builder, strip, leaf)
  else {
    const corner: Point = [length + skew * width, width]
    builder.cubicTo([Math.min(0.4 * corner[0], 0.7 * length), 0], [0.6 * corner[0], 0.88 * width], corner)
  }
  return drawnIn(strip, builder)
}

const heightOf = (edge: Edge, width: number): number => (edge === 'inner' ? 0 : width)

/** How far beyond the inner corner the last crest lies, in widths: its leaves keep before the mitre. */
const LAST: Readonly<Record<Edge, (skew: number) => number>> = {
  inner: () => -0.45,
  outer: (skew) => Math.min(0.45 * skew, 0.45) - 0.83,
}

/** How many crests, how long a half wave is, mm, and the breadth of a leaf for its length. */
interface Vine {
  readonly count: number
  readonly half: number
  readonly leaf: number
}

/** From the edge through the crests, with a pair of leaves on each, and one of a pair where it begins. */
function stitchVine({ width, from }: Strip, { count, half, leaf }: Vine): StrokeBuilder {
  const builder = new StrokeBuilder([0, heightOf(from, width)])
  stitchEndLeaf(builder, { half, leaf, width, forward: 1 })
  for (let i = 0; i < count; i++) {
    const side = (from === 'inner') === (i % 2 === 0) ? 1 : -1
    const crest: Point = [(i + FIRST) * half, width / 2 + side * SWING * width]
    const [u, v] = builder.at
    const reach = 0.45 * (crest[0] - u)
    builder.cubicTo([u + reach, v], [crest[0] - reach, crest[1]], crest)
    const drop = Math.min((0.5 + SWING) * width * LEAF, 1.6 * half)
    for (const lean of [-SPREAD, SPREAD])
      stitchLeaf(builder, [lean * Math.min(drop, half), -side * drop], leaf * Math.min(drop, half))
  }
  return builder
}

/** At an end on an edge: one leaf, which its mirror image or the next stretch makes a pair. */
function stitchEndLeaf(
  builder: StrokeBuilder,
  { half, leaf, width, forward }: { half: number; leaf: number; width: number; forward: 1 | -1 },
): void {
  const side = builder.at[1] === 0 ? 1 : -1
  const drop = Math.min(END_LEAF * width, 1.6 * half)
  const size = Math.min(drop, half)
  const [u] = builder.at
  const place = leafPlaces(builder.at, [forward * END_SPREAD * size, side * drop], leaf * size)
  /** Kept on its own side of the end, and clear of its mirror image there. */
  const at = (along: number, across: number): Point => {
    const p = place(along, across)
    const least = u + forward * APART * along * size
    return [forward === 1 ? Math.max(least, p[0]) : Math.min(least, p[0]), p[1]]
  }
  builder.cubicTo(at(0.22, 0.5), at(0.66, 0.85), at(1, 0))
  builder.cubicTo(at(0.66, -0.85), at(0.22, -0.5), at(0, 0))
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
  const [u, v] = builder.at
  const slope = Math.hypot(1, skew)
  const away = (length + skew * v - u) / slope
  const reach = Math.min((CORNER_LEAF * width) / slope, 0.94 * (isOuter ? v : width - v))
  const size = isOuter ? -reach : reach
  // Clear of its mirror image, or none.
  if (away > CLEAR * width) stitchLeaf(builder, [size * skew, size], slope * reach * Math.min(leaf, 0.32))
  builder.push(rest)
}

const drawnIn = ({ from, to }: Strip, builder: StrokeBuilder): Drawn => ({
  stroke: builder.build(),
  touches: [
    { edge: from, after: 0 },
    { edge: to, after: builder.count },
  ],
})
