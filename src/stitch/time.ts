import { type Stitches, stitchLength } from './lay-stitches.ts'
import { assertWithin } from './within-limits.ts'

/** How long things take. */
export interface TimeSettings {
  readonly stitchesPerMinute: number
  /** Share of that speed which is kept in tight curves, 0..1. */
  readonly tightCurveSpeed: number
  /** A curve is tight below this radius, mm. */
  readonly tightRadius: number
  readonly repositionSeconds: number
  readonly bobbinSeconds: number
  /** To start and end a thread: bring up the bobbin thread, tie off or bury the tails. */
  readonly startSeconds: number
  /** To roll a framed quilt on. */
  readonly advanceSeconds: number
  /** To put in another thread, and its bobbin. */
  readonly threadSeconds: number
  /** To turn the quilt once right round. */
  readonly turnSeconds: number
}

/**
 * Unhurried free-motion quilting on a domestic machine.
 *
 * @source domestic machines sew up to 1,000 to 1,500 stitches a minute (bdtextilemates.blogspot.com 2022/11); 600 in
 * use and all the other rates are common practice, no source: set your own
 */
export const TIME_DEFAULTS: TimeSettings = {
  stitchesPerMinute: 600,
  tightCurveSpeed: 0.6,
  tightRadius: 6,
  repositionSeconds: 60,
  bobbinSeconds: 120,
  startSeconds: 90,
  advanceSeconds: 180,
  threadSeconds: 150,
  turnSeconds: 20,
}

/** What is to be done. */
export interface Work {
  readonly starts: readonly Stitches[]
  readonly repositions: number
  readonly bobbinChanges: number
  readonly frameAdvances: number
  readonly threadChanges: number
  /** Full turns of the quilt; where the line runs in any direction, none. */
  readonly turns: number
}

/** One row of the reckoning: what, how many, at which rate, and the minutes that it takes. */
export interface TimeEntry {
  readonly what: string
  readonly count: number
  readonly rate: number
  readonly rateUnit: 'stitches/min' | 's each'
  readonly minutes: number
}

export interface TimeReckoning {
  readonly minutes: number
  readonly entries: readonly TimeEntry[]
}

/** @throws PlanError `time/setting` naming every rate that cannot be worked with */
function assertTimeSettings(settings: TimeSettings): void {
  const seconds = (at: string, value: number) => ({ at: `time.${at}`, value, min: 0, max: 7200, unit: 's' })
  assertWithin('time/setting', [
    { at: 'time.speed', value: settings.stitchesPerMinute, min: 10, max: 10_000, unit: 'stitches/min' },
    { at: 'time.tightCurveSpeed', value: settings.tightCurveSpeed, min: 0.05, max: 1, unit: '(a share)' },
    { at: 'time.tightRadius', value: settings.tightRadius, min: 0, max: 1000, unit: 'mm' },
    seconds('reposition', settings.repositionSeconds),
    seconds('bobbin', settings.bobbinSeconds),
    seconds('start', settings.startSeconds),
    seconds('advance', settings.advanceSeconds),
    seconds('thread', settings.threadSeconds),
    seconds('turn', settings.turnSeconds),
  ])
}

/**
 * The time that a quilt takes, row by row, so that every rate can be read and argued with.
 *
 * @throws PlanError `time/setting` for nonsense rates, `time/count` for counts below 0
 */
export function reckonTime(work: Work, settings: TimeSettings = TIME_DEFAULTS): TimeReckoning {
  assertTimeSettings(settings)
  const count = (at: string, value: number) => ({ at, value, min: 0, max: 1e6, unit: 'times' })
  assertWithin('time/count', [
    count('repositions', work.repositions),
    count('bobbinChanges', work.bobbinChanges),
    count('frameAdvances', work.frameAdvances),
    count('threadChanges', work.threadChanges),
    count('turns', work.turns),
  ])
  const all = work.starts.reduce((sum, stitches) => sum + stitches.count, 0)
  const tight = work.starts.reduce((sum, stitches) => sum + countTight(stitches, settings.tightRadius), 0)
  const slow = settings.stitchesPerMinute * settings.tightCurveSpeed
  const entries = [
    stitching('stitches', all - tight, settings.stitchesPerMinute),
    stitching('stitches in tight curves', tight, slow),
    pauses('starts and ends of thread', work.starts.length, settings.startSeconds),
    pauses('repositions', work.repositions, settings.repositionSeconds),
    pauses('bobbin changes', work.bobbinChanges, settings.bobbinSeconds),
    pauses('frame advances', work.frameAdvances, settings.advanceSeconds),
    pauses('changes of thread', work.threadChanges, settings.threadSeconds),
    pauses('full turns of the quilt', work.turns, settings.turnSeconds),
  ]
  return { minutes: entries.reduce((sum, entry) => sum + entry.minutes, 0), entries }
}

const stitching = (what: string, count: number, rate: number): TimeEntry => ({
  what,
  count,
  rate,
  rateUnit: 'stitches/min',
  minutes: count / rate,
})

const pauses = (what: string, count: number, rate: number): TimeEntry => ({
  what,
  count,
  rate,
  rateUnit: 's each',
  minutes: (count * rate) / 60,
})

/**
 * How many stitches begin or end in a curve tighter than `radius` mm, cusps among them.
 *
 * @source a chain of chords c with turns a between them follows a circle of radius c / (2 sin(a/2))
 */
export function countTight(stitches: Stitches, radius: number): number {
  let count = 0
  let before = false
  for (let i = 0; i < stitches.count; i++) {
    const after = i + 1 < stitches.count && isTightTurn(stitches, i, radius)
    if (before || after) count++
    before = after
  }
  return count
}

/** Whether the turn between stitch `i` and the next is that of a curve tighter than `radius`. */
function isTightTurn(stitches: Stitches, i: number, radius: number): boolean {
  const { xs, ys } = stitches
  const [dx, dy] = [xs[i + 1]! - xs[i]!, ys[i + 1]! - ys[i]!]
  const [ex, ey] = [xs[i + 2]! - xs[i + 1]!, ys[i + 2]! - ys[i + 1]!]
  const turn = Math.abs(Math.atan2(dx * ey - dy * ex, dx * ex + dy * ey))
  const mean = (stitchLength(stitches, i) + stitchLength(stitches, i + 1)) / 2
  return 2 * radius * Math.sin(turn / 2) > mean
}

/** Speed over the quilt, mm/min. @source stitches per minute times stitch length */
export const feedRate = (stitchesPerMinute: number, stitchMm: number): number => stitchesPerMinute * stitchMm
