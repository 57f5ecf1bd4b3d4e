import { PlanError } from '../error.ts'
import type { Line } from './line.ts'
import { planNeedles, tieZones } from './needle-plan.ts'
import type { Needles } from './needles.ts'
import { assertStitchSettings, STITCH_DEFAULTS, type StitchSettings } from './settings.ts'
import { type Tidied, tidyNeedles } from './tidy-needles.ts'
import { layTrack, type Track } from './track.ts'

/**
 * The stitches of one thread start, as flat arrays: needle point `i` is (xs[i], ys[i]), stitch `i` goes from needle
 * point `i` to `i + 1`.
 */
export interface Stitches {
  /** How many stitches: one less than needle points. */
  readonly count: number
  /** mm */
  readonly xs: Float64Array
  readonly ys: Float64Array
  /** Distance along the line of each needle point, mm. */
  readonly along: Float64Array
  /** 1 for a stitch that belongs to a tie-off, else 0. */
  readonly tied: Uint8Array
  /** Index of the part in which each stitch ends. */
  readonly parts: Uint32Array
  /** Sum of the stitches' lengths, mm. */
  readonly lengthMm: number
  /** Length of the line they follow, mm. */
  readonly lineMm: number
  /** CSS colour of the thread. */
  readonly thread: string
  /** Cusps too close to another needle point to have one of their own. */
  readonly mergedCusps: number
  /** Greatest distance between a stitch and the line, mm. */
  readonly worstChordError: number
}

/**
 * Lays stitches along a line. The needle goes down at both ends, at every cusp, and between them in nearly even
 * steps, none longer than asked and shorter where a curve is tight. Either end is tied off with a few very short
 * stitches along the line, unless the line has parts of kind `tie-off`, which are then stitched that short instead.
 *
 * No other stitch is shorter than `minLength`. That rule is the stronger one: a cusp closer than that to the one
 * before it has no needle point of its own (`mergedCusps` counts them), and no stitches that long keep to a hairpin
 * curve of a radius between about 1/5 and 4/5 of it (`worstChordError`).
 *
 * @param line      one thread start
 * @param settings  see StitchSettings
 * @param track     the line's track at the settings' cusp angle, if it is at hand
 * @throws PlanError `stitch/setting` for nonsense settings, `stitch/line-too-short` for a line under `minLength`
 */
export function layStitches(
  line: Line,
  settings: StitchSettings = STITCH_DEFAULTS,
  track: Track = layTrack(line, settings.cuspAngle),
): Stitches {
  assertStitchSettings(settings)
  assertLongEnough(track, settings)
  const zones = tieZones(line, track, settings)
  const plan = planNeedles(track, zones, settings)
  const tidied = tidyNeedles(plan, zones, { track, settings })
  const { mergedCusps, worstChordError } = tidied
  return { ...pack(tidied, track), lineMm: track.lengthMm, thread: line.thread, mergedCusps, worstChordError }
}

function assertLongEnough({ lengthMm }: Track, { minLength }: StitchSettings): void {
  if (lengthMm >= minLength) return
  const message = `the line is ${lengthMm} mm long, the shortest stitch is ${minLength} mm`
  throw new PlanError({ code: 'stitch/line-too-short', message, at: '' })
}

/** The needle points, those laid anew in their places. */
function pack(tidied: Tidied, track: Track) {
  const { xs, ys, along, pieces, tied } = tidied.relays.length === 0 ? tidied.needles : woven(tidied)
  const count = xs.length - 1
  const parts = new Uint32Array(count)
  for (let i = 0; i < count; i++) parts[i] = track.parts[pieces[i + 1]!]!
  return { count, xs, ys, along, tied: tied.subarray(1), parts, lengthMm: sumOfLengths(xs, ys) }
}

/** Needle points with those laid anew in place of those that they replace. */
function woven({ needles, relays }: Tidied): Omit<Needles, 'fixed'> {
  const count = relays.reduce((sum, r) => sum + r.needles.length - (r.to - r.from - 1), needles.xs.length)
  const all = {
    xs: new Float64Array(count),
    ys: new Float64Array(count),
    along: new Float64Array(count),
    pieces: new Uint32Array(count),
    tied: new Uint8Array(count),
  }
  let [at, next] = [0, 0]
  const keepUpTo = (end: number) => {
    for (const key of FIGURES) all[key].set(needles[key].subarray(next, end), at)
    at += end - next
  }
  for (const { from, to, needles: laid } of relays) {
    keepUpTo(from + 1)
    for (const { point, along, piece, tied } of laid) {
      ;[all.xs[at], all.ys[at]] = point
      all.along[at] = along
      all.pieces[at] = piece
      all.tied[at++] = tied
    }
    next = to
  }
  keepUpTo(needles.xs.length)
  return all
}

const FIGURES = ['xs', 'ys', 'along', 'pieces', 'tied'] as const

function sumOfLengths(xs: Float64Array, ys: Float64Array): number {
  let sum = 0
  for (let i = 1; i < xs.length; i++) {
    const dx = xs[i]! - xs[i - 1]!
    const dy = ys[i]! - ys[i - 1]!
    sum += Math.sqrt(dx * dx + dy * dy)
  }
  return sum
}

/** Stitches and their length in one band, or in the seams. */
export interface BandCount {
  /** Index of the band; -1 for the centre, undefined for the seams. */
  readonly band: number | undefined
  readonly count: number
  /** mm */
  readonly lengthMm: number
}

/** How many stitches each band holds, in the order in which the line first enters it. */
export function countByBand(line: Line, stitches: Stitches): BandCount[] {
  const counts = new Map<number | undefined, BandCount>()
  for (const { part, count, lengthMm } of countByPart(stitches)) {
    const band = line.parts[part]?.band
    const before = counts.get(band)
    counts.set(band, {
      band,
      count: (before?.count ?? 0) + count,
      lengthMm: (before?.lengthMm ?? 0) + lengthMm,
    })
  }
  return [...counts.values()]
}

/** How many stitches end in each part of the line; parts without one are left out. */
export function countByPart(stitches: Stitches): { part: number; count: number; lengthMm: number }[] {
  const counts: { part: number; count: number; lengthMm: number }[] = []
  for (let i = 0; i < stitches.count; i++) {
    const part = stitches.parts[i]!
    if (counts.at(-1)?.part !== part) counts.push({ part, count: 0, lengthMm: 0 })
    const last = counts.at(-1)!
    last.count++
    last.lengthMm += stitchLength(stitches, i)
  }
  return counts
}

/** Length of stitch `i`, mm. */
export function stitchLength({ xs, ys }: Pick<Stitches, 'xs' | 'ys'>, i: number): number {
  const dx = xs[i + 1]! - xs[i]!
  const dy = ys[i + 1]! - ys[i]!
  return Math.sqrt(dx * dx + dy * dy)
}
