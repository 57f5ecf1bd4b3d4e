import { distance, type Point } from '../geometry/point.ts'
import type { NeedlePlan, TieZone } from './needle-plan.ts'
import type { StitchSettings } from './settings.ts'
import { pointOnPiece, startOfPiece, type Track } from './track.ts'

/** Places where the needle goes down, in order, as flat lists. */
interface Needles {
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

/** A needle point that was added in front of another. */
interface Insertion {
  /** Index of the needle point that it comes before. */
  readonly before: number
  readonly needle: Needle
}

export interface Tidied {
  readonly needles: Needles
  /** Points to be added, in order. */
  readonly insertions: readonly Insertion[]
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
  readonly tied: number
}

/** Where a piece of nearly constant curvature lies farthest from its chord, as a share of it. */
const MIDDLE = 0.5

/** Takes out stitches that are too short, then splits those that are too long or cut a curve by too much. */
export function tidyNeedles(plan: NeedlePlan, zones: readonly TieZone[], work: Work): Tidied {
  const needles = readPlan(plan, zones, work.track)
  const mergedCusps = dropShort(needles, work.settings.minLength)
  const insertions: Insertion[] = []
  let worst = 0
  for (let i = 1; i < needles.xs.length; i++) {
    const error =
      errorAsIs(needles, i, work) ??
      splitStitch(work, [needleOf(needles, i - 1), needleOf(needles, i)], (needle) =>
        insertions.push({ before: i, needle }),
      )
    if (error > worst) worst = error
  }
  return { needles, insertions, mergedCusps, worstChordError: worst }
}

/** The chord error of a stitch that keeps to one piece and is right as it is: most are, and need no closer look. */
function errorAsIs(needles: Needles, i: number, { track, settings }: Work): number | undefined {
  const { along, pieces, xs, ys } = needles
  const piece = pieces[i]!
  const length = along[i]! - along[i - 1]!
  if (pieces[i - 1] !== piece || length > settings.lengthMm) return undefined
  const { kind } = track.segments[piece]!
  if (kind === 'line') return 0
  const ends = [i - 1, i].map((k): Point => [xs[k]!, ys[k]!]) as [Point, Point]
  // The distance along a cubic is reckoned a little short at times, so that its chord may be longer.
  if (kind === 'cubic' && distance(...ends) > settings.lengthMm * TOO_LONG) return undefined
  const error =
    kind === 'arc'
      ? sagitta(track.curvatures[piece]!, length)
      : offChord(pointOnPiece(track, piece, along[i - 1]! + length * MIDDLE), ...ends)
  return error <= settings.chordTolerance ? error : undefined
}

/** A chord beyond so many times the asked length is too long: rounding allowed. */
const TOO_LONG = 1 + 1e-9

const needleOf = ({ xs, ys, along, pieces, tied }: Needles, i: number): Needle => ({
  point: [xs[i]!, ys[i]!],
  along: along[i]!,
  piece: pieces[i]!,
  tied: tied[i]!,
})

/** The planned needle points with their places; takes the plan's own lists over. */
function readPlan({ along, pieces, fixed }: NeedlePlan, zones: readonly TieZone[], track: Track): Needles {
  const needles: Needles = { xs: [], ys: [], along, pieces, fixed, tied: [] }
  for (let i = 0; i < along.length; i++) {
    const [x, y] = pointOnPiece(track, pieces[i]!, along[i]!)
    needles.xs.push(x)
    needles.ys.push(y)
    needles.tied.push(i > 0 && isTied(zones, along[i - 1]!, along[i]!) ? 1 : 0)
  }
  return needles
}

function isTied(zones: readonly TieZone[], from: number, to: number): boolean {
  for (const zone of zones) if (from >= zone.from && to <= zone.to) return true
  return false
}

/**
 * Takes out needle points so that no stitch outside a tie-off is shorter than asked. Of two points too close, a cusp
 * is kept before a point on a curve, the line's ends before any, and of two cusps the first.
 *
 * @returns how many cusps were taken out
 */
function dropShort(needles: Needles, minLength: number): number {
  const { fixed } = needles
  const count = fixed.length
  let kept = 0
  let mergedCusps = 0
  for (let i = 0; i < count; i++) {
    const isEnd = i === count - 1
    while (kept > 1 && isShort(needles, [kept - 1, i], minLength)) {
      const lastIsFixed = fixed[kept - 1] === 1
      if (!isEnd && (fixed[i] === 0 || lastIsFixed)) break
      if (lastIsFixed) mergedCusps++
      kept--
    }
    if (i > 0 && !isEnd && isShort(needles, [kept - 1, i], minLength)) mergedCusps += fixed[i]!
    else move(needles, i, kept++)
  }
  for (const list of Object.values(needles)) list.length = kept
  return mergedCusps
}

function isShort({ xs, ys, tied }: Needles, [a, b]: readonly [number, number], minLength: number): boolean {
  const dx = xs[b]! - xs[a]!
  const dy = ys[b]! - ys[a]!
  return tied[b] === 0 && Math.sqrt(dx * dx + dy * dy) < minLength
}

function move(needles: Needles, from: number, to: number): void {
  if (from === to) return
  const { xs, ys, along, pieces, fixed, tied } = needles
  xs[to] = xs[from]!
  ys[to] = ys[from]!
  along[to] = along[from]!
  pieces[to] = pieces[from]!
  fixed[to] = fixed[from]!
  tied[to] = tied[from]!
}

type Ends = readonly [Needle, Needle]

/** Inserts as many points into a stitch as it needs, in order; returns the chord error that is left. */
function splitStitch(work: Work, ends: Ends, insert: (needle: Needle) => void): number {
  const [a, b] = ends
  const { lengthMm, chordTolerance } = work.settings
  const far = farthest(work.track, ends)
  const tooLong = chordOf(a, b) > lengthMm * TOO_LONG
  const middle =
    tooLong || far.error > chordTolerance ? splitPoint(work, ends, tooLong ? undefined : far) : undefined
  if (!middle) return far.error
  const before = splitStitch(work, [a, middle], insert)
  insert(middle)
  return Math.max(before, splitStitch(work, [middle, b], insert))
}

function chordOf({ point: [ax, ay] }: Needle, { point: [bx, by] }: Needle): number {
  return Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay))
}

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
  return { point: pointOnPiece(track, piece, along), along, piece, tied: b.tied }
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
    if (kind === 'arc') {
      const error = sagitta(track.curvatures[a.piece]!, b.along - a.along)
      return { along: (a.along + b.along) / 2, error }
    }
  }
  let far: Far = { along: a.along, error: 0 }
  for (let piece = a.piece; piece <= b.piece; piece++) {
    const from = Math.max(a.along, startOfPiece(track, piece))
    const to = Math.min(b.along, track.ends[piece]!)
    if (to <= from) continue
    for (const share of SAMPLES[track.segments[piece]!.kind]) {
      const along = from + (to - from) * share
      const error = offChord(pointOnPiece(track, piece, along), a.point, b.point)
      if (error > far.error) far = { along, error }
    }
  }
  return far
}

/** The distance from `p` to the chord from `a` to `b`, mm. */
function offChord(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  const squared = dx * dx + dy * dy
  const along = squared > 0 ? ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared : 0
  const t = Math.min(1, Math.max(0, along))
  const x = a[0] + dx * t - p[0]
  const y = a[1] + dy * t - p[1]
  return Math.sqrt(x * x + y * y)
}

/** @source sagitta of an arc: R (1 - cos(arc / 2R)), Euclid III.35 */
const sagitta = (curvature: number, arc: number): number =>
  (1 - Math.cos(Math.min(Math.PI, (curvature * arc) / 2))) / curvature

/** Where to look on a piece for the point farthest from a chord: joints, and the inside of what is curved. */
const SAMPLES = {
  line: [1],
  cubic: [MIDDLE, 1],
  arc: [0.25, 0.5, 0.75, 1],
} as const
