import { distance, type Point } from '../geometry/point.ts'
import { type Far, farthest, MIDDLE, offChord, SURE, sagitta } from './chord-error.ts'
import type { NeedlePlan, TieZone } from './needle-plan.ts'
import {
  chordOf,
  firstOf,
  type Needle,
  type Needles,
  type NeedleWork,
  needleAt,
  needleOf,
  type StitchEnds,
} from './needles.ts'
import { type Relay, relayStrays } from './relay-strays.ts'
import { pointOnPiece, type Track } from './track.ts'

export interface Tidied {
  readonly needles: Needles
  /** What takes the place of some of them, in order. */
  readonly relays: readonly Relay[]
  /** Cusps that lie too close to another to have a needle point of their own. */
  readonly mergedCusps: number
  /** Greatest distance between a stitch and the line, mm. */
  readonly worstChordError: number
}

/**
 * Takes out stitches that are too short, splits those that are too long or cut a curve by too much, and lays anew
 * what strays still, because it was too short to be split.
 */
export function tidyNeedles(plan: NeedlePlan, zones: readonly TieZone[], work: NeedleWork): Tidied {
  const { needles, mergedCusps } = dropShort(readPlan(plan, zones, work.track), work.settings.minLength)
  const relays: Relay[] = []
  const strays: number[] = []
  let worst = 0
  for (let i = 1; i < needles.xs.length; i++) {
    const error = errorAsIs(needles, i, work) ?? splitInto(relays, needles, i, work)
    if (error > work.settings.chordTolerance && needles.tied[i] === 0) strays.push(i)
    else if (error > worst) worst = error
  }
  const tidied = { needles, mergedCusps }
  if (strays.length === 0) return { ...tidied, relays, worstChordError: worst }
  const laid = relayStrays(needles, { relays, strays }, work)
  return { ...tidied, relays: laid.relays, worstChordError: Math.max(worst, laid.worst) }
}

/** Splits stitch `i` where it needs it; returns the chord error that is left, mm. */
function splitInto(relays: Relay[], needles: Needles, i: number, work: NeedleWork): number {
  const added: Needle[] = []
  const ends: StitchEnds = [needleOf(needles, i - 1), needleOf(needles, i)]
  const error = splitStitch(work, ends, (needle) => added.push(needle))
  if (added.length > 0) relays.push({ from: i - 1, to: i, needles: added })
  return error
}

/** The chord error of a stitch that keeps to one piece and is right as it is: most are, and need no closer look. */
function errorAsIs(needles: Needles, i: number, { track, settings }: NeedleWork): number | undefined {
  const { along, pieces, xs, ys } = needles
  const piece = pieces[i]!
  const length = along[i]! - along[i - 1]!
  if (pieces[i - 1] !== piece || length > settings.lengthMm) return undefined
  const { kind } = track.segments[piece]!
  if (kind === 'line') return 0
  const [a, b]: [Point, Point] = [
    [xs[i - 1]!, ys[i - 1]!],
    [xs[i]!, ys[i]!],
  ]
  // The distance along a cubic is reckoned a little short at times, so that its chord may be longer.
  if (kind === 'cubic' && distance(a, b) > settings.lengthMm * TOO_LONG) return undefined
  if (kind === 'arc') {
    const error = sagitta(track.curvatures[piece]!, length)
    return error <= settings.chordTolerance ? error : undefined
  }
  const error = offChord(pointOnPiece(track, piece, along[i - 1]! + length * MIDDLE), a, b)
  return error <= SURE * settings.chordTolerance ? error : undefined
}

/** A chord beyond so many times the asked length is too long: rounding allowed. */
const TOO_LONG = 1 + 1e-9

/** The planned needle points with their places; takes the plan's own arrays over. */
function readPlan({ along, pieces, fixed }: NeedlePlan, zones: readonly TieZone[], track: Track): Needles {
  const count = along.length
  const xs = new Float64Array(count)
  const ys = new Float64Array(count)
  const tied = new Uint8Array(count)
  for (let i = 0; i < count; i++) {
    const [x, y] = pointOnPiece(track, pieces[i]!, along[i]!)
    xs[i] = x
    ys[i] = y
    tied[i] = i > 0 && isTied(zones, along[i - 1]!, along[i]!) ? 1 : 0
  }
  return { xs, ys, along, pieces, fixed, tied }
}

function isTied(zones: readonly TieZone[], from: number, to: number): boolean {
  for (const zone of zones) if (from >= zone.from && to <= zone.to) return true
  return false
}

/**
 * Takes out needle points so that no stitch outside a tie-off is shorter than asked. Of two points too close, a cusp
 * is kept before a point on a curve, the line's ends before any, and of two cusps the first.
 *
 * @returns those that are left, in the same arrays, and how many cusps were taken out
 */
function dropShort(
  needles: Needles,
  minLength: number,
): { readonly needles: Needles; readonly mergedCusps: number } {
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
  return { needles: firstOf(needles, kept), mergedCusps }
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

/** Inserts as many points into a stitch as it needs, in order; returns the chord error that is left. */
function splitStitch(work: NeedleWork, ends: StitchEnds, insert: (needle: Needle) => void): number {
  const [a, b] = ends
  const { lengthMm, chordTolerance } = work.settings
  const far = farthest(work.track, ends, chordTolerance)
  const tooLong = chordOf(a, b) > lengthMm * TOO_LONG
  const middle =
    tooLong || far.error > chordTolerance ? splitPoint(work, ends, tooLong ? undefined : far) : undefined
  if (!middle) return far.error
  const before = splitStitch(work, [a, middle], insert)
  insert(middle)
  return Math.max(before, splitStitch(work, [middle, b], insert))
}

/** Where to split: at the point farthest off, or as far from one end as from the other; undefined if too short. */
function splitPoint(work: NeedleWork, [a, b]: StitchEnds, far: Far | undefined): Needle | undefined {
  const tries = [...(far ? [far.along] : []), halfway(work.track, [a, b])]
  for (const along of tries) {
    const needle = needleAt(work.track, [a, b], along)
    if (Math.min(chordOf(a, needle), chordOf(needle, b)) >= work.settings.minLength) return needle
  }
  return undefined
}

/** The distance along the line at which its point is as far from one end of the stitch as from the other, mm. */
function halfway(track: Track, ends: StitchEnds): number {
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
