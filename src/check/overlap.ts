import type { Point } from '../geometry/point.ts'
import { assertWithin } from '../stitch/within-limits.ts'
import { judgeStretch, type Look } from './overlap-kind.ts'
import type { Polyline } from './polyline.ts'
import { isOnEarlier, lookBack, readAlong, stretchAt, type Trail, trailOf } from './trail.ts'

/** What counts as stitching over a line that is already stitched, mm. */
export interface OverlapSettings {
  /** Lines closer than this lie on each other. */
  readonly within: number
  /** Only what lies more than this back along the line is earlier. */
  readonly back: number
  /** Shorter stretches do not count. */
  readonly shortest: number
  /** Two curves that touch do not count if both are of a smaller radius. */
  readonly kissRadius: number
}

export const OVERLAP_DEFAULTS: OverlapSettings = { within: 0.1, back: 6, shortest: 4, kissRadius: 40 }

/** A stretch of line that lies on an earlier part. */
export interface Overlap {
  /** Which of the polylines, from 0. */
  readonly line: number
  /** Distance along it, mm. */
  readonly fromMm: number
  readonly toMm: number
  readonly from: Point
  readonly to: Point
  /** What it lies on: the polyline and the distance along it at the stretch's middle, mm. */
  readonly onto: { readonly line: number; readonly alongMm: number }
}

export interface Overlaps {
  /** Sum of the stretches' lengths, mm. A line sewn three times counts twice. */
  readonly lengthMm: number
  readonly stretches: readonly Overlap[]
}

/** How far apart the places are at which a line is looked at, mm; ends of stretches are found far more exactly. */
const STEP = 1

/**
 * The length of line that lies on an earlier part of it: within 0.1 mm of what was stitched more than 6 mm before,
 * for 4 mm or more. A crossing is no overlap, nor is a touch where two curves of radius under 40 mm kiss.
 *
 * @param lines  thread starts in the order of work, flattened to 0.05 mm or finer; all of a start is earlier than
 * the next
 * @throws PlanError `check/overlap` for nonsense settings
 */
export function measureOverlap(
  lines: readonly Polyline[],
  settings: OverlapSettings = OVERLAP_DEFAULTS,
): Overlaps {
  assertSettings(settings)
  const trail = trailOf(lines, settings)
  const stretches = lines.flatMap((_, line) => overlapsOf({ trail, settings, line }))
  return { lengthMm: stretches.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0), stretches }
}

function assertSettings({ within, back, shortest, kissRadius }: OverlapSettings): void {
  assertWithin('check/overlap', [
    { at: 'overlap.within', value: within, min: 1e-4, max: 5, unit: 'mm' },
    { at: 'overlap.back', value: back, min: 2 * within, max: 1000, unit: 'mm' },
    { at: 'overlap.shortest', value: shortest, min: STEP, max: 1000, unit: 'mm' },
    { at: 'overlap.kissRadius', value: kissRadius, min: 0, max: 1e6, unit: 'mm' },
  ])
}

interface Looking {
  readonly trail: Trail
  readonly settings: OverlapSettings
  readonly line: number
}

function overlapsOf(looking: Looking): Overlap[] {
  const { trail, settings, line } = looking
  const [start, end] = trail.spans[line]!
  const found: Overlap[] = []
  let before = start
  let from: number | undefined
  const close = (to: number) => {
    if (from !== undefined && to - from >= settings.shortest - 1e-6) found.push(...countIf(looking, from, to))
    from = undefined
  }
  const count = Math.ceil((end - start) / STEP)
  let stretch = stretchAt(trail, start)
  for (let i = 0; i <= count; i++) {
    const along = start + ((end - start) * i) / Math.max(1, count)
    while (stretch + 1 < trail.begins.length && trail.begins[stretch + 1]! <= along) stretch++
    const isOn = isOnEarlier(trail, stretch, along)
    if (isOn && from === undefined) from = i === 0 ? along : turningPoint(trail, before, along)
    if (!isOn && from !== undefined) close(turningPoint(trail, before, along))
    before = along
  }
  close(end)
  return found
}

/** Where between two places the line comes onto an earlier part or leaves it. */
function turningPoint(trail: Trail, a: number, b: number): number {
  let [low, high] = [a, b]
  const atLow = lookBack(trail, low) !== undefined
  for (let k = 0; k < 20; k++) {
    const middle = (low + high) / 2
    if ((lookBack(trail, middle) !== undefined) === atLow) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** The stretch, unless it is a crossing or a kiss. */
function countIf({ trail, settings, line }: Looking, from: number, to: number): Overlap[] {
  const inset = Math.min(1e-3, (to - from) / 100)
  const looks = [0, 0.25, 0.5, 0.75, 1].map((share): Look | undefined => {
    const along = from + inset + (to - from - 2 * inset) * share
    const partner = lookBack(trail, along)
    return partner && { here: readAlong(trail, along), partner }
  })
  const seen = looks.filter((look): look is Look => look !== undefined)
  if (judgeStretch(seen, to - from, settings) !== 'overlap') return []
  const start = trail.spans[line]![0]
  const { partner } = seen[seen.length >> 1]!
  return [
    {
      line,
      fromMm: from - start,
      toMm: to - start,
      from: readAlong(trail, from).p,
      to: readAlong(trail, to).p,
      onto: { line: partner.line, alongMm: partner.along - trail.spans[partner.line]![0] },
    },
  ]
}
