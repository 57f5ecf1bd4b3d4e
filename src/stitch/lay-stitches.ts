import { PlanError } from '../error.ts'
import type { Line } from './line.ts'
import { planNeedles, tieZones } from './needle-plan.ts'
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
 * before it has no needle point of its own (`mergedCusps` counts them), and a stitch that cannot be split into two
 * long enough may cut a hairpin curve by more than the tolerance (`worstChordError`).
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

/** The needle points as flat arrays, with the inserted ones in their places. */
function pack({ needles, insertions }: Tidied, track: Track) {
  const points = needles.xs.length + insertions.length
  const [xs, ys, along] = [0, 1, 2].map(() => new Float64Array(points)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  const tied = new Uint8Array(points - 1)
  const parts = new Uint32Array(points - 1)
  let at = 0
  let next = 0
  for (let i = 0; i < needles.xs.length; ) {
    const inserted = insertions[next]?.before === i ? insertions[next++]!.needle : undefined
    const piece = inserted ? inserted.piece : needles.pieces[i]!
    xs[at] = inserted ? inserted.point[0] : needles.xs[i]!
    ys[at] = inserted ? inserted.point[1] : needles.ys[i]!
    along[at] = inserted ? inserted.along : needles.along[i]!
    if (at > 0) {
      tied[at - 1] = inserted ? inserted.tied : needles.tied[i]!
      parts[at - 1] = track.parts[piece]!
    }
    at++
    if (!inserted) i++
  }
  return { count: points - 1, xs, ys, along, tied, parts, lengthMm: sumOfLengths(xs, ys) }
}

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
