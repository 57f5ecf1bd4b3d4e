import type { Point } from '../geometry/point.ts'
import { farthest, offChord } from './chord-error.ts'
import {
  chordOf,
  type Needle,
  type Needles,
  type NeedleWork,
  needleAt,
  needleOf,
  type StitchEnds,
} from './needles.ts'
import { startOfPiece } from './track.ts'

/** Needle points that take the place of those between two others. */
export interface Relay {
  /** Index of the needle points before and after them. */
  readonly from: number
  readonly to: number
  readonly needles: readonly Needle[]
}

/** How far from a stray stitch needle points may be moved, in shortest stitches. */
const ROOM = 4
/** How many places there are in a shortest stitch at which the needle may go down. */
const FINENESS = 10
/** A stitch may follow a hairpin for so many times the longest stitch. */
const LONGEST_ARC = 1.5
/** The share of the chord tolerance to aim at, for the line is looked at in those places only. */
const AIM = 0.97
/** What a stitch costs that strays by twice the tolerance, in stitches. */
const STRAYING = 1e4

/**
 * Lays the stitches about those that stray anew: of all needle points on a fine scale, those that stray least, and
 * of such the fewest.
 *
 * @param relays  what has been laid anew so far, in order
 * @param strays  indexes of the needle points at which such stitches end, in order
 * @returns       all of them, in order, and the greatest chord error in what was laid here, mm
 */
export function relayStrays(
  needles: Needles,
  { relays, strays }: { readonly relays: readonly Relay[]; readonly strays: readonly number[] },
  work: NeedleWork,
): { readonly relays: Relay[]; readonly worst: number } {
  const windows = windowsAbout(needles, strays, work)
  const laid: Relay[] = []
  let worst = 0
  let next = 0
  for (const window of windows) {
    for (; next < relays.length && relays[next]!.to <= window.from; next++) laid.push(relays[next]!)
    const inside: Relay[] = []
    for (; next < relays.length && relays[next]!.to <= window.to; next++) inside.push(relays[next]!)
    const relay = layAnew(needles, { ...window, inside }, work)
    laid.push(relay)
    worst = Math.max(worst, worstOf(needles, relay, work))
  }
  return { relays: [...laid, ...relays.slice(next)], worst }
}

interface Window {
  readonly from: number
  readonly to: number
}

/** The stretches in which points may be moved: they end at cusps and tie-offs. */
function windowsAbout(needles: Needles, strays: readonly number[], { settings }: NeedleWork): Window[] {
  const { along, fixed, tied } = needles
  const room = ROOM * settings.minLength
  const windows: Window[] = []
  for (const stray of strays) {
    let [from, to] = [stray - 1, stray]
    while (fixed[from] === 0 && tied[from] === 0 && along[stray - 1]! - along[from]! < room) from--
    while (fixed[to] === 0 && tied[to + 1] === 0 && along[to]! - along[stray]! < room) to++
    const last = windows.at(-1)
    if (last && last.to > from) windows[windows.length - 1] = { from: Math.min(last.from, from), to }
    else windows.push({ from, to })
  }
  return windows
}

function layAnew(
  needles: Needles,
  { from, to, inside }: Window & { readonly inside: readonly Relay[] },
  work: NeedleWork,
): Relay {
  const ends: StitchEnds = [needleOf(needles, from), needleOf(needles, to)]
  const there = inside.flatMap((relay) => relay.needles.map(({ along }) => along))
  const places = placesBetween(ends, [...there, ...needles.along.slice(from + 1, to)], work)
  return { from, to, needles: bestOf(places, work) }
}

/** Where the needle may go down, in order, both ends among them: on a fine scale, at joints, and `there`, mm along. */
function placesBetween(
  ends: StitchEnds,
  there: readonly number[],
  { track, settings }: NeedleWork,
): Needle[] {
  const [a, b] = ends
  const count = Math.ceil(((b.along - a.along) * FINENESS) / settings.minLength)
  const scale = Array.from({ length: count }, (_, i) => a.along + ((b.along - a.along) * i) / count)
  const joints: number[] = []
  for (let piece = a.piece + 1; piece <= b.piece; piece++) joints.push(startOfPiece(track, piece))
  const between = [...new Set([...scale, ...joints, ...there])].filter((s) => s > a.along && s < b.along)
  return [a, ...between.sort((s, t) => s - t).map((along) => needleAt(track, ends, along)), b]
}

/** The places between the first and the last that together cost least. */
function bestOf(places: readonly Needle[], { settings }: NeedleWork): Needle[] {
  const { lengthMm, minLength, chordTolerance } = settings
  const costs = new Float64Array(places.length).fill(Number.POSITIVE_INFINITY)
  const before = new Int32Array(places.length)
  costs[0] = 0
  for (let j = 1; j < places.length; j++) {
    for (let i = j - 1; i >= 0; i--) {
      if (places[j]!.along - places[i]!.along > LONGEST_ARC * lengthMm) break
      if (!(costs[i]! + 1 < costs[j]!)) continue
      const chord = chordOf(places[i]!, places[j]!)
      if (chord < minLength || chord > lengthMm) continue
      // Whatever strays by more costs more than what was found already.
      const most = AIM * chordTolerance * (1 + Math.sqrt((costs[j]! - costs[i]! - 1) / STRAYING))
      const stray = strayOf(places, [i, j], most)
      if (stray > most) continue
      const over = Math.max(0, stray / (AIM * chordTolerance) - 1)
      const cost = costs[i]! + 1 + STRAYING * over * over
      if (cost >= costs[j]!) continue
      costs[j] = cost
      before[j] = i
    }
  }
  const best: Needle[] = []
  for (let at = before[places.length - 1]!; at > 0; at = before[at]!) best.push(places[at]!)
  return best.reverse()
}

/** How far the places between two stray from the stitch from one to the other, mm; if by more than `most`, some that does. */
function strayOf(places: readonly Needle[], [i, j]: readonly [number, number], most: number): number {
  const [a, b]: [Point, Point] = [places[i]!.point, places[j]!.point]
  // On a hairpin that is near its middle, as a rule.
  let far = j - i > 1 ? offChord(places[(i + j) >> 1]!.point, a, b) : 0
  for (let k = i + 1; k < j && far <= most; k++) far = Math.max(far, offChord(places[k]!.point, a, b))
  return far
}

function worstOf(needles: Needles, { from, to, needles: laid }: Relay, work: NeedleWork): number {
  const all = [needleOf(needles, from), ...laid, needleOf(needles, to)]
  return Math.max(
    ...all.slice(1).map((b, i) => farthest(work.track, [all[i]!, b], work.settings.chordTolerance).error),
  )
}
