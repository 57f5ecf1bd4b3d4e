import { distanceToLine, type Point } from '../geometry/point.ts'
import type { NeedlePlan, TieZone } from './needle-plan.ts'
import type { StitchSettings } from './settings.ts'
import { pointOnPiece, startOfPiece, type Track } from './track.ts'

/** Places where the needle goes down, in order, as flat lists. */
export interface Needles {
  readonly xs: number[]
  readonly ys: number[]
  /** Distance along the line, mm. */
  readonly along: number[]
  /** The piece of the track that each lies in. */
  readonly pieces: number[]
  /** 1 for a cusp or an end of the line. */
  readonly fixed: number[]
  /** 1 where the stitch that ends here belongs to a tie-off. */
  readonly tied: number[]
}

export interface Tidied {
  readonly needles: Needles
  /** Cusps that lie too close to another to have a needle point of their own. */
  readonly mergedCusps: number
  /** Greatest distance between a stitch and the line, mm. */
  readonly worstChordError: number
}

interface Work {
  readonly track: Track
  readonly settings: StitchSettings
}

/** One place where the needle goes down. */
interface Needle {
  readonly point: Point
  readonly along: number
  readonly piece: number
  readonly fixed: number
  readonly tied: number
}

/** Takes out stitches that are too short, then splits those that are too long or cut a curve by too much. */
export function tidyNeedles(plan: NeedlePlan, zones: readonly TieZone[], work: Work): Tidied {
  const { needles, mergedCusps } = dropShort(plan, zones, work)
  const tidied = emptyNeedles()
  push(tidied, needleOf(needles, 0))
  let worst = 0
  for (let i = 1; i < needles.xs.length; i++) {
    worst = Math.max(worst, splitStitch(work, [needleOf(needles, i - 1), needleOf(needles, i)], tidied))
  }
  return { needles: tidied, mergedCusps, worstChordError: worst }
}

const emptyNeedles = (): Needles => ({ xs: [], ys: [], along: [], pieces: [], fixed: [], tied: [] })

function push(needles: Needles, { point, along, piece, fixed, tied }: Needle): void {
  needles.xs.push(point[0])
  needles.ys.push(point[1])
  needles.along.push(along)
  needles.pieces.push(piece)
  needles.fixed.push(fixed)
  needles.tied.push(tied)
}

function pop(needles: Needles): void {
  for (const list of [needles.xs, needles.ys, needles.along, needles.pieces, needles.fixed, needles.tied]) {
    list.pop()
  }
}

const needleOf = ({ xs, ys, along, pieces, fixed, tied }: Needles, i: number): Needle => ({
  point: [xs[i]!, ys[i]!],
  along: along[i]!,
  piece: pieces[i]!,
  fixed: fixed[i]!,
  tied: tied[i]!,
})

/**
 * Keeps needle points so that no stitch outside a tie-off is shorter than asked. Of two points too close, a cusp is
 * kept before a point on a curve, the line's ends before any, and of two cusps the first.
 */
function dropShort(plan: NeedlePlan, zones: readonly TieZone[], { track, settings }: Work) {
  const needles = emptyNeedles()
  let mergedCusps = 0
  const last = () => needles.xs.length - 1
  const isShort = (b: Needle) =>
    b.tied === 0 &&
    Math.hypot(needles.xs[last()]! - b.point[0], needles.ys[last()]! - b.point[1]) < settings.minLength
  for (let i = 0; i < plan.along.length; i++) {
    const needle = readPlan(plan, i, { zones, track })
    const isEnd = i === plan.along.length - 1
    while (last() > 0 && isShort(needle)) {
      const lastIsFixed = needles.fixed[last()] === 1
      if (!isEnd && (needle.fixed === 0 || lastIsFixed)) break
      if (lastIsFixed) mergedCusps++
      pop(needles)
    }
    if (i > 0 && !isEnd && isShort(needle)) mergedCusps += needle.fixed
    else push(needles, needle)
  }
  return { needles, mergedCusps }
}

function readPlan(
  { along, pieces, fixed }: NeedlePlan,
  i: number,
  { zones, track }: { readonly zones: readonly TieZone[]; readonly track: Track },
): Needle {
  const [from, to] = [along[i - 1] ?? 0, along[i]!]
  const tied = i > 0 && zones.some((zone) => from >= zone.from && to <= zone.to) ? 1 : 0
  return { point: pointOnPiece(track, pieces[i]!, to), along: to, piece: pieces[i]!, fixed: fixed[i]!, tied }
}

type Ends = readonly [Needle, Needle]

/** Appends the stitch's end to `needles`, with as many points before it as it needs; returns the chord error left. */
function splitStitch(work: Work, ends: Ends, needles: Needles): number {
  const [a, b] = ends
  const { lengthMm, chordTolerance } = work.settings
  const far = farthest(work.track, ends)
  const tooLong = chordOf(a, b) > lengthMm * (1 + 1e-9)
  const middle =
    tooLong || far.error > chordTolerance ? splitPoint(work, ends, tooLong ? undefined : far) : undefined
  if (!middle) {
    push(needles, b)
    return far.error
  }
  return Math.max(splitStitch(work, [a, middle], needles), splitStitch(work, [middle, b], needles))
}

const chordOf = (a: Needle, b: Needle): number => Math.hypot(b.point[0] - a.point[0], b.point[1] - a.point[1])

/** Where to split: at the point farthest off, or as far from one end as from the other; undefined if too short. */
function splitPoint(work: Work, [a, b]: Ends, far: Far | undefined): Needle | undefined {
  const tries = [...(far ? [far.along] : []), halfway(work.track, [a, b])]
  for (const along of tries) {
    const needle = needleAt(work.track, [a, b], along)
    if (Math.min(chordOf(a, needle), chordOf(needle, b)) >= work.settings.minLength) return needle
  }
  return undefined
}

function needleAt(track: Track, [a, b]: Ends, along: number): Needle {
  let piece = a.piece
  while (piece < b.piece && track.ends[piece]! < along) piece++
  return { point: pointOnPiece(track, piece, along), along, piece, fixed: 0, tied: b.tied }
}

/** The distance along the line at which its point is as far from one end of the stitch as from the other, mm. */
function halfway(track: Track, ends: Ends): number {
  const [a, b] = ends
  let [low, high] = [a.along, b.along]
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2
    const needle = needleAt(track, ends, middle)
    if (chordOf(a, needle) < chordOf(needle, b)) low = middle
    else high = middle
  }
  return (low + high) / 2
}

interface Far {
  readonly along: number
  readonly error: number
}

/** The point of the line within the stitch that lies farthest from its chord. */
function farthest(track: Track, [a, b]: Ends): Far {
  if (a.piece === b.piece) {
    const { kind } = track.segments[a.piece]!
    if (kind === 'line') return { along: a.along, error: 0 }
    if (kind === 'arc') return sagitta(track.curvatures[a.piece]!, a.along, b.along)
  }
  let far: Far = { along: a.along, error: 0 }
  for (let piece = a.piece; piece <= b.piece; piece++) {
    const from = Math.max(a.along, startOfPiece(track, piece))
    const to = Math.min(b.along, track.ends[piece]!)
    if (to <= from) continue
    for (const share of SAMPLES[track.segments[piece]!.kind]) {
      const along = from + (to - from) * share
      const error = distanceToLine(pointOnPiece(track, piece, along), a.point, b.point)
      if (error > far.error) far = { along, error }
    }
  }
  return far
}

/** @source sagitta of an arc: R (1 - cos(arc / 2R)), Euclid III.35 */
function sagitta(curvature: number, from: number, to: number): Far {
  const half = Math.min(Math.PI, (curvature * (to - from)) / 2)
  return { along: (from + to) / 2, error: (1 - Math.cos(half)) / curvature }
}

/** Where to look on a piece for the point farthest from a chord: joints, and the inside of what is curved. */
const SAMPLES = {
  line: [1],
  cubic: [0.5, 1],
  arc: [0.25, 0.5, 0.75, 1],
} as const
