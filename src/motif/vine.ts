import type { Point } from '../geometry/point.ts'
import { cubic, type Segment, splitAt } from '../geometry/segment.ts'
import { type Stroke, StrokeBuilder } from '../geometry/stroke.ts'
import type { FreeStrip } from './free-end.ts'

/** What grows on both sides of a waving stem. */
export interface Growth {
  /** Length of a half wave, from one edge towards the other, mm. */
  readonly halfWave: number
  /** How far the waves swing from the middle, as a part of the width. */
  readonly swing: number
  /** Along the strip from one leaf to the next, mm. */
  readonly step: number
  /**
   * A leaf as cubics from [0, 0] and back to it: x from -1/2 to 1/2 fills the step, y from 0 to 1 reaches from the stem to
   * the edge.
   */
  readonly leaf: readonly Segment[]
  /** How far a leaf leans forward, as a part of its height. */
  readonly lean: number
  /** Whether leaves give way to the stem's slope and so fill their steps, or keep their shape and stand apart. */
  readonly stand: 'close' | 'apart'
  /** The least height of a leaf, mm. */
  readonly least: number
  /** What a leaf leaves free at the edge, mm. */
  readonly margin: number
}

/** The stem as a height over the strip, with its slope. */
type Stem = (u: number) => { readonly y: number; readonly slope: number }

/** Each cubic of a leaf is drawn as so many. */
const PIECES = 3

/**
 * A line along a waving stem that leaves it at every step for a leaf above and one below. Leaves do not cross: each keeps
 * to its own step of the strip, and all lean by the same rule.
 */
export function growVine(strip: FreeStrip, growth: Growth): Stroke {
  const stem = stemThrough(strip, growth)
  const count = Math.max(1, Math.round(strip.length / growth.step))
  const step = strip.length / count
  const line = new StrokeBuilder([0, 0])
  const piecesIn = (length: number) => Math.ceil((8 * length) / growth.halfWave - 1e-6)
  let at = 0
  for (const { base, edge } of spots(strip, growth, count)) {
    if (Math.abs(edge - stem(base).y) < growth.least) continue
    if (base > at) climb(line, stem, { from: at, to: base, pieces: piecesIn(base - at) })
    const place = placing(strip, stem, { base, step, edge, growth })
    for (const segment of mapped(growth.leaf, place)) line.push(segment)
    at = base
  }
  climb(line, stem, { from: at, to: strip.length, pieces: piecesIn(strip.length - at) })
  return line.build()
}

/** Where leaves grow and to which edge: in pairs where they stand close, by turns where they stand apart. */
function spots({ length, width }: FreeStrip, { stand, margin }: Growth, count: number) {
  const step = length / count
  const [above, below] = [width - margin, margin]
  return Array.from({ length: 2 * count }, (_, i) => {
    const pair = (Math.floor(i / 2) + 0.5) * step
    const base = stand === 'close' ? pair : ((i + 1) / 2) * step
    return { base, edge: i % 2 === 0 ? above : below }
  }).slice(0, stand === 'close' ? 2 * count : 2 * count - 1)
}

/** From edge to edge: up to the middle, waving about it, and on to the edge at the end. */
function stemThrough({ length, width, returns }: FreeStrip, { halfWave, swing }: Growth): Stem {
  const lead = Math.min(width, length / 2)
  const waves = Math.max(1, Math.round(length / halfWave))
  return (u) => {
    const start = rise(u / lead)
    const end = rise((length - u) / lead)
    const angle = (Math.PI * waves * u) / length
    const wave = 2 * swing * Math.sin(angle)
    const waveRate = (2 * swing * Math.cos(angle) * Math.PI * waves) / length
    const side = returns ? -1 : 1
    const share = start.share * end.share
    const shareRate = (start.rate * end.share - start.share * end.rate) / lead
    return {
      y: (width / 2) * (start.share + side * (1 - end.share) + share * wave),
      slope: (width / 2) * ((start.rate + side * end.rate) / lead + shareRate * wave + share * waveRate),
    }
  }
}

/** From 0 to 1 while t goes from 0 to 1, level at both ends. */
function rise(t: number): { share: number; rate: number } {
  if (t >= 1) return { share: 1, rate: 0 }
  if (t <= 0) return { share: 0, rate: 0 }
  const angle = Math.PI * t
  return { share: (1 - Math.cos(angle)) / 2, rate: (Math.PI * Math.sin(angle)) / 2 }
}

interface Climb {
  readonly from: number
  readonly to: number
  readonly pieces: number
}

function climb(line: StrokeBuilder, stem: Stem, { from, to, pieces }: Climb): void {
  const third = (to - from) / pieces / 3
  for (let i = 0; i < pieces; i++) {
    const [a, b] = [from + 3 * i * third, from + 3 * (i + 1) * third]
    const [p, q] = [stem(a), stem(b)]
    line.cubicTo([a + third, p.y + third * p.slope], [b - third, q.y - third * q.slope], [b, q.y])
  }
}

/** Where a point of a leaf lies, and how it moves with x and y. */
type Placing = (p: Point) => { readonly to: Point; readonly dx: Point; readonly dy: Point }

interface Spot {
  readonly base: number
  readonly step: number
  readonly edge: number
  readonly growth: Growth
}

function placing(strip: FreeStrip, stem: Stem, spot: Spot): Placing {
  const { base, edge } = spot
  const { lean, stand } = spot.growth
  const fade = fadeAtEnds(strip)
  const { y: root, slope: rootSlope } = stem(base)
  const side = Math.sign(edge - root)
  const step = stand === 'close' ? spot.step : Math.min(spot.step, 0.7 * Math.abs(edge - root))
  // A leaf that stands apart follows the stem only in part, so that it keeps its shape.
  const tilt = 0.7 * rootSlope
  return ([x, y]) => {
    const u = base + x * step
    const { y: foot, slope } = stand === 'close' ? stem(u) : { y: root + tilt * x * step, slope: tilt }
    const height = (edge - foot) * side
    const { share, rate } = fade(u)
    const bow = 0.3 * y + 0.7 * y * y
    const leaning = lean * bow * (rate * height - share * side * slope)
    return {
      to: [u + lean * bow * share * height, foot + (edge - foot) * y],
      dx: [step * (1 + leaning), step * slope * (1 - y)],
      dy: [lean * (0.3 + 1.4 * y) * share * height, edge - foot],
    }
  }
}

/** Leaves stand upright at both ends of the strip, so that none reaches beyond. */
function fadeAtEnds({ length, width }: FreeStrip): (u: number) => { share: number; rate: number } {
  const zone = Math.min(2.2 * width, length / 2)
  const full = zone / (2.2 * width)
  return (u) => {
    const near = Math.min(1, Math.min(u, length - u) / zone)
    const sign = u < length / 2 ? 1 : -1
    return { share: full * near * (2 - near), rate: (2 * sign * full * (1 - near)) / zone }
  }
}

/** The image of cubics from [0, 0]: ends and tangents of each piece are exact. */
function mapped(segments: readonly Segment[], place: Placing): Segment[] {
  const image: Segment[] = []
  let from: Point = [0, 0]
  for (const whole of segments) {
    for (const piece of pieces(from, whole)) {
      if (piece.kind === 'cubic') {
        const [p, q] = [place(from), place(piece.to)]
        const c1 = moved(p, [piece.c1[0] - from[0], piece.c1[1] - from[1]])
        const c2 = moved(q, [piece.c2[0] - piece.to[0], piece.c2[1] - piece.to[1]])
        image.push(cubic(c1, c2, q.to))
      }
      from = piece.to
    }
  }
  return image
}

const moved = ({ to, dx, dy }: ReturnType<Placing>, [x, y]: Point): Point => [
  to[0] + x * dx[0] + y * dy[0],
  to[1] + x * dx[1] + y * dy[1],
]

function pieces(from: Point, segment: Segment): Segment[] {
  const parts: Segment[] = []
  let [start, rest] = [from, segment]
  for (let left = PIECES; left > 1; left--) {
    const [first, second] = splitAt(start, rest, 1 / left)
    parts.push(first)
    start = first.to
    rest = second
  }
  return [...parts, rest]
}
