import type { Point } from '../geometry/point.ts'
import { strokeLength } from '../geometry/stroke.ts'
import { type Stitches, stitchLength } from './lay-stitches.ts'
import type { Line } from './line.ts'
import { assertThreadSettings, type ThreadSettings } from './thread-use.ts'
import { assertWithin } from './within-limits.ts'

/** A stretch of the line that lies in a seam, mm along the line; a crossing has no length. */
export interface SeamStretch {
  readonly from: number
  readonly to: number
}

/** Why a bobbin is changed where it is: in a seam that was near enough, or in the open because none was. */
export type ChangeReason = 'seam' | 'open' | 'start'

/** One change of bobbin. */
export interface BobbinChange {
  readonly at: Point
  /** Which thread start it falls in, from 0. */
  readonly start: number
  /** Distance along that thread's line, mm. */
  readonly alongMm: number
  /** The needle point at which the old bobbin ends. */
  readonly needle: number
  readonly reason: ChangeReason
  /** Thread taken from the bobbin that is taken out, with waste and tails, m. */
  readonly usedM: number
}

/** One thread start: its stitches, and where its line lies in a seam. */
export interface SewnStart {
  readonly stitches: Stitches
  readonly seams: readonly SeamStretch[]
}

/** How much a bobbin holds and how it is used up. */
export interface BobbinSettings extends ThreadSettings {
  /** m */
  readonly capacityM: number
  /** The last share of a bobbin within which a change is moved back to a seam: 0.1 for the last tenth. */
  readonly moveBackShare: number
}

/** Where a line lies in a seam: its crossings, and its parts of kind travel and ditch. */
export function seamStretchesOf(line: Line): SeamStretch[] {
  const stretches: SeamStretch[] = []
  let along = 0
  for (const { kind, stroke } of line.parts) {
    const from = along
    along += strokeLength(stroke)
    if (kind === 'crossing' || kind === 'travel' || kind === 'ditch') stretches.push({ from, to: along })
  }
  return stretches
}

interface State {
  /** Thread taken from the bobbin in the machine, mm. */
  used: number
  readonly changes: BobbinChange[]
}

/**
 * Where the bobbin is changed. Each is used until it runs out, or until the last seam before that, if there is one
 * within its last tenth. A bobbin that cannot hold the tails of the next thread start and its first stitch is changed
 * before it.
 *
 * @param starts  thread starts in the order of work; a bobbin goes on from one to the next
 * @throws PlanError `thread/bobbin` if the bobbin does not hold even one stitch with its tails
 */
export function placeBobbinChanges(starts: readonly SewnStart[], settings: BobbinSettings): BobbinChange[] {
  assertThreadSettings(settings)
  const need = demandOf(settings)
  const most = Math.max(0, ...starts.map(({ stitches }) => longestOf(stitches)))
  const least = (need(most) + 2 * settings.tailMm) / 1000
  assertWithin('thread/bobbin', [
    { at: 'thread.bobbin', value: settings.capacityM, min: Math.max(least, 1e-3), max: 1e5, unit: 'm' },
    { at: 'thread.moveBack', value: settings.moveBackShare, min: 0, max: 0.9, unit: '(a share)' },
  ])
  const state: State = { used: 0, changes: [] }
  starts.forEach((start, index) => {
    sewStart(state, { ...start, index }, settings)
  })
  return state.changes
}

/** Thread that a stitch of `lengthMm` takes from the bobbin, with waste, mm. */
const demandOf =
  ({ thicknessMm, wasteShare }: ThreadSettings) =>
  (lengthMm: number): number =>
    (lengthMm + thicknessMm) * (1 + wasteShare)

function longestOf(stitches: Stitches): number {
  let longest = 0
  for (let i = 0; i < stitches.count; i++) longest = Math.max(longest, stitchLength(stitches, i))
  return longest
}

interface Indexed extends SewnStart {
  readonly index: number
}

function sewStart(state: State, start: Indexed, settings: BobbinSettings): void {
  const { stitches } = start
  const capacity = settings.capacityM * 1000
  const need = demandOf(settings)
  if (state.used + 2 * settings.tailMm + need(stitchLength(stitches, 0)) > capacity) {
    change(state, start, { needle: 0, used: state.used, reason: 'start' })
  }
  state.used += 2 * settings.tailMm
  /** Thread used up to each needle point since the last change. */
  const usedAt = new Float64Array(stitches.count + 1)
  usedAt[0] = state.used
  let first = 0
  for (let i = 0; i < stitches.count; i++) {
    usedAt[i + 1] = usedAt[i]! + need(stitchLength(stitches, i))
    if (usedAt[i + 1]! <= capacity) continue
    const needle = moveBack(start, { first, last: i, usedAt, least: capacity * (1 - settings.moveBackShare) })
    const reason = isInSeam(start, needle) ? 'seam' : 'open'
    change(state, start, { needle, used: usedAt[needle]!, reason })
    first = needle
    usedAt[needle] = 0
    i = needle - 1
  }
  state.used = usedAt[stitches.count]!
}

interface Window {
  readonly first: number
  readonly last: number
  readonly usedAt: Float64Array
  readonly least: number
}

/** The last needle point of the window that lies in a seam; its end if none does. */
function moveBack(start: Indexed, { first, last, usedAt, least }: Window): number {
  for (let needle = last; needle > first && usedAt[needle]! >= least; needle--) {
    if (isInSeam(start, needle)) return needle
  }
  return last
}

/** Whether a needle point lies in a seam, or is the nearest one to a crossing. */
function isInSeam({ stitches: { along }, seams }: SewnStart, needle: number): boolean {
  const here = along[needle]!
  const before = (here + (along[needle - 1] ?? here)) / 2
  const after = (here + (along[needle + 1] ?? here)) / 2
  let [low, high] = [0, seams.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (seams[middle]!.to < before) low = middle + 1
    else high = middle
  }
  const seam = seams[low]
  if (!seam) return false
  return (here >= seam.from && here <= seam.to) || (seam.from >= before && seam.from < after)
}

function change(
  state: State,
  { stitches, index }: Indexed,
  { needle, used, reason }: { needle: number; used: number; reason: ChangeReason },
): void {
  state.changes.push({
    at: [stitches.xs[needle]!, stitches.ys[needle]!],
    start: index,
    alongMm: stitches.along[needle]!,
    needle,
    reason,
    usedM: used / 1000,
  })
  state.used = 0
}
