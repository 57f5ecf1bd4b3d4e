import type { Line } from './line.ts'
import type { StitchSettings } from './settings.ts'
import { startOfPiece, type Track } from './track.ts'

/** A stretch of the line that is stitched as a tie-off, mm along it. */
export interface TieZone {
  readonly from: number
  readonly to: number
}

/** Where needle points are wanted, in order along the line: distance, piece, whether it must be kept. */
export interface NeedlePlan {
  readonly along: Float64Array
  readonly pieces: Uint32Array
  /** 1 for a cusp or an end of the line. */
  readonly fixed: Uint8Array
}

/** A plan while it is being written. */
class NeedleWriter {
  count = 0
  readonly #along: Float64Array
  readonly #pieces: Uint32Array
  readonly #fixed: Uint8Array

  /** @param most  how many needle points there may be */
  constructor(most: number) {
    this.#along = new Float64Array(most)
    this.#pieces = new Uint32Array(most)
    this.#fixed = new Uint8Array(most)
  }

  add(along: number, piece: number, fixed: number): void {
    this.#along[this.count] = along
    this.#pieces[this.count] = piece
    this.#fixed[this.count++] = fixed
  }

  plan(): NeedlePlan {
    const { count } = this
    return {
      along: this.#along.subarray(0, count),
      pieces: this.#pieces.subarray(0, count),
      fixed: this.#fixed.subarray(0, count),
    }
  }
}

/** The share of the chord tolerance that is planned for, leaving room where the curvature changes in a stitch. */
const PLANNED_SHARE = 0.8

/**
 * The longest stitch for a curvature: its chord strays from the curve by no more than the planned tolerance.
 *
 * @source sagitta = R (1 - cos(arc / 2R))
 */
function longestStitch(curvature: number, settings: StitchSettings): number {
  const { lengthMm, minLength, chordTolerance } = settings
  if (curvature * lengthMm < 1e-9) return lengthMm
  const radius = 1 / curvature
  const arc = 2 * radius * Math.acos(Math.max(-1, 1 - (PLANNED_SHARE * chordTolerance) / radius))
  return Math.min(lengthMm, Math.max(minLength, arc))
}

/** The tie-offs of a line: parts made for that, else a short stretch at either end, at most a quarter of the line. */
export function tieZones(line: Line, track: Track, { tieOff }: StitchSettings): TieZone[] {
  const own = partRanges(line, track)
  if (own.length > 0) return own
  const length = Math.min(tieOff.count * tieOff.lengthMm, track.lengthMm / 4)
  if (length <= 0) return []
  return [
    { from: 0, to: length },
    { from: track.lengthMm - length, to: track.lengthMm },
  ]
}

function partRanges(line: Line, track: Track): TieZone[] {
  const zones: TieZone[] = []
  track.parts.forEach((part, i) => {
    if (line.parts[part]!.kind !== 'tie-off') return
    const last = zones.at(-1)
    const from = startOfPiece(track, i)
    if (last && last.to === from) zones[zones.length - 1] = { from: last.from, to: track.ends[i]! }
    else zones.push({ from, to: track.ends[i]! })
  })
  return zones
}

/**
 * Plans needle points: one at each cusp and end, and between them as many as the asked length and the curvature
 * need, each stitch taking the same share of the longest that is allowed where it lies.
 */
export function planNeedles(track: Track, zones: readonly TieZone[], settings: StitchSettings): NeedlePlan {
  const load = loadAlong(track, zones, settings)
  const cusps = track.jumps.reduce((count, jump) => count + (jump > settings.cuspAngle ? 1 : 0), 0)
  // One more than its load between each two places where a run ends, and what a rounded load may add.
  const runs = cusps + 2 * zones.length + 2
  const plan = new NeedleWriter(Math.ceil(load.ends.at(-1)!) + 2 * runs)
  plan.add(0, 0, 1)
  const breaks = zones.flatMap(({ from, to }) => [from, to]).filter((s) => s > 0 && s < track.lengthMm)
  let next = 0
  let run: Run = { along: 0, load: 0, piece: 0 }
  for (let i = 0; i < track.ends.length; i++) {
    const end = track.ends[i]!
    for (; next < breaks.length && breaks[next]! < end; next++) {
      if (breaks[next]! <= run.along) continue
      const at = { along: breaks[next]!, load: load.at(breaks[next]!, i), piece: i }
      spread({ plan, load, track }, run, { ...at, fixed: 0 })
      run = at
    }
    const isLast = i === track.ends.length - 1
    if (!isLast && track.jumps[i + 1]! <= settings.cuspAngle) continue
    const at = { along: end, load: load.ends[i]!, piece: i }
    spread({ plan, load, track }, run, { ...at, fixed: 1 })
    run = at
  }
  return plan.plan()
}

interface Run {
  readonly along: number
  readonly load: number
  readonly piece: number
}

/** How many stitches, as a fraction, the line needs up to each piece's end. */
interface Load {
  readonly ends: Float64Array
  /** The load at `along` mm, in piece `i`. */
  at(along: number, i: number): number
  /** The inverse of `at`. */
  along(load: number, i: number): number
}

function loadAlong(track: Track, zones: readonly TieZone[], settings: StitchSettings): Load {
  const count = track.ends.length
  const rates = new Float64Array(count)
  for (let i = 0; i < count; i++) rates[i] = 1 / longestStitch(track.curvatures[i]!, settings)
  const extra = 1 / settings.tieOff.lengthMm
  const inZone = (from: number, to: number) =>
    zones.reduce((sum, zone) => sum + Math.max(0, Math.min(to, zone.to) - Math.max(from, zone.from)), 0)
  const ends = new Float64Array(count)
  const isTied = (i: number) => zones.some((z) => z.from < track.ends[i]! && z.to > startOfPiece(track, i))
  const tied = new Uint8Array(count)
  for (let i = 0; i < count; i++) tied[i] = isTied(i) ? 1 : 0
  const within = (i: number, to: number) => {
    const from = startOfPiece(track, i)
    if (tied[i] === 0) return (to - from) * rates[i]!
    const zone = inZone(from, to)
    return zone * extra + (to - from - zone) * rates[i]!
  }
  for (let i = 0; i < ends.length; i++) ends[i] = (ends[i - 1] ?? 0) + within(i, track.ends[i]!)
  return {
    ends,
    at: (along, i) => (ends[i - 1] ?? 0) + within(i, along),
    along: (load, i) => {
      const from = startOfPiece(track, i)
      const before = ends[i - 1] ?? 0
      if (tied[i] === 0) return from + (load - before) / rates[i]!
      return bisect(from, track.ends[i]!, (s) => before + within(i, s) < load)
    },
  }
}

function bisect(from: number, to: number, isBefore: (s: number) => boolean): number {
  let [low, high] = [from, to]
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2
    if (isBefore(middle)) low = middle
    else high = middle
  }
  return (low + high) / 2
}

interface Spreading {
  readonly plan: NeedleWriter
  readonly load: Load
  readonly track: Track
}

/** Adds the needle points after `from` up to and with `to`, at equal steps of load. */
function spread({ plan, load, track }: Spreading, from: Run, to: Run & { readonly fixed: number }): void {
  const count = Math.max(1, Math.ceil(to.load - from.load - 1e-9))
  let piece = from.piece
  for (let k = 1; k < count; k++) {
    const target = from.load + ((to.load - from.load) * k) / count
    while (piece < to.piece && load.ends[piece]! < target) piece++
    plan.add(Math.min(load.along(target, piece), track.ends[piece]!), piece, 0)
  }
  plan.add(to.along, to.piece, to.fixed)
}
