import { distance, distanceToLine, type Point } from '../geometry/point.ts'
import type { NeedlePlan, TieZone } from './needle-plan.ts'
import type { StitchSettings } from './settings.ts'
import { pointOnPiece, startOfPiece, type Track } from './track.ts'

/** One place where the needle goes down. */
export interface Needle {
  readonly point: Point
  /** Distance along the line, mm. */
  readonly along: number
  readonly piece: number
  readonly fixed: boolean
  /** Whether the stitch that ends here belongs to a tie-off. */
  readonly tied: boolean
}

export interface Tidied {
  readonly needles: readonly Needle[]
  /** Cusps that lie too close to another to have a needle point of their own. */
  readonly mergedCusps: number
  /** Greatest distance between a stitch and the line, mm. */
  readonly worstChordError: number
}

interface Work {
  readonly track: Track
  readonly settings: StitchSettings
}

/** Takes out stitches that are too short, then splits those that are too long or cut a curve by too much. */
export function tidyNeedles(plan: NeedlePlan, zones: readonly TieZone[], work: Work): Tidied {
  const { needles, mergedCusps } = dropShort(readPlan(plan, zones, work.track), work.settings.minLength)
  const tidied: Needle[] = [needles[0]!]
  let worst = 0
  for (let i = 1; i < needles.length; i++) {
    worst = Math.max(worst, splitStitch(work, [needles[i - 1]!, needles[i]!], tidied))
  }
  return { needles: tidied, mergedCusps, worstChordError: worst }
}

function readPlan(plan: NeedlePlan, zones: readonly TieZone[], track: Track): Needle[] {
  const isTied = (from: number, to: number) => zones.some((z) => from >= z.from && to <= z.to)
  return plan.along.map((along, i) => ({
    point: pointOnPiece(track, plan.pieces[i]!, along),
    along,
    piece: plan.pieces[i]!,
    fixed: plan.fixed[i] === 1,
    tied: i > 0 && isTied(plan.along[i - 1]!, along),
  }))
}

/**
 * Keeps needle points so that no stitch outside a tie-off is shorter than `minLength`. Of two points too close, a
 * cusp is kept before a point on a curve, the line's ends before any, and of two cusps the first.
 */
function dropShort(all: readonly Needle[], minLength: number) {
  const needles: Needle[] = []
  let mergedCusps = 0
  const isShort = (a: Needle, b: Needle) => !b.tied && distance(a.point, b.point) < minLength
  all.forEach((needle, i) => {
    const isEnd = i === all.length - 1
    while (needles.length > 1 && isShort(needles.at(-1)!, needle)) {
      const last = needles.at(-1)!
      if (!(isEnd || (needle.fixed && !last.fixed))) break
      if (last.fixed) mergedCusps++
      needles.pop()
    }
    const last = needles.at(-1)
    if (last && !isEnd && isShort(last, needle)) mergedCusps += needle.fixed ? 1 : 0
    else needles.push(needle)
  })
  return { needles, mergedCusps }
}

type Ends = readonly [Needle, Needle]

/** Appends the stitch's end to `needles`, with as many points before it as it needs; returns the chord error left. */
function splitStitch(work: Work, ends: Ends, needles: Needle[]): number {
  const [a, b] = ends
  const { lengthMm, chordTolerance } = work.settings
  const far = farthest(work.track, ends)
  const tooLong = distance(a.point, b.point) > lengthMm * (1 + 1e-9)
  const middle =
    tooLong || far.error > chordTolerance ? splitPoint(work, ends, tooLong ? undefined : far) : undefined
  if (!middle) {
    needles.push(b)
    return far.error
  }
  return Math.max(splitStitch(work, [a, middle], needles), splitStitch(work, [middle, b], needles))
}

/** Where to split: at the point farthest off, or as far from one end as from the other; undefined if too short. */
function splitPoint(work: Work, [a, b]: Ends, far: Far | undefined): Needle | undefined {
  const tries = [...(far ? [far.along] : []), halfway(work.track, [a, b])]
  for (const along of tries) {
    const needle = needleAt(work.track, [a, b], along)
    const shortest = Math.min(distance(a.point, needle.point), distance(needle.point, b.point))
    if (shortest >= work.settings.minLength) return needle
  }
  return undefined
}

function needleAt(track: Track, [a, b]: Ends, along: number): Needle {
  let piece = a.piece
  while (piece < b.piece && track.ends[piece]! < along) piece++
  return { point: pointOnPiece(track, piece, along), along, piece, fixed: false, tied: b.tied }
}

/** The distance along the line at which its point is as far from one end of the stitch as from the other, mm. */
function halfway(track: Track, ends: Ends): number {
  const [a, b] = ends
  let [low, high] = [a.along, b.along]
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2
    const { point } = needleAt(track, ends, middle)
    if (distance(a.point, point) < distance(point, b.point)) low = middle
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
  if (a.piece === b.piece && track.segments[a.piece]!.kind === 'line') return { along: a.along, error: 0 }
  let far: Far = { along: a.along, error: 0 }
  const look = (piece: number, along: number) => {
    const error = distanceToLine(pointOnPiece(track, piece, along), a.point, b.point)
    if (error > far.error) far = { along, error }
  }
  for (let piece = a.piece; piece <= b.piece; piece++) {
    const from = Math.max(a.along, startOfPiece(track, piece))
    const to = Math.min(b.along, track.ends[piece]!)
    if (to <= from) continue
    for (const share of SAMPLES[track.segments[piece]!.kind]) look(piece, from + (to - from) * share)
  }
  return far
}

/** Where to look on a piece for the point farthest from a chord: joints, and the inside of what is curved. */
const SAMPLES = {
  line: [1],
  cubic: [0.5, 1],
  arc: [0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1],
} as const
