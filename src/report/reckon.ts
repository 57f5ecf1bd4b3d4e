import { checkWalkingFoot, WALKING_FOOT_DEFAULTS, type WalkingFootCheck } from '../check/walking-foot.ts'
import type { Plan } from '../plan/plan.ts'
import {
  type BobbinChange,
  type BobbinSettings,
  placeBobbinChanges,
  type SewnStart,
  seamStretchesOf,
} from '../stitch/bobbin-changes.ts'
import { type BandCount, countByBand, layStitches, type Stitches } from '../stitch/lay-stitches.ts'
import type { Line } from '../stitch/line.ts'
import { STITCH_DEFAULTS } from '../stitch/settings.ts'
import { reckonThread, THREAD_DEFAULTS, type ThreadUse } from '../stitch/thread-use.ts'
import { reckonTime, type TimeReckoning, type TimeSettings } from '../stitch/time.ts'
import { layTrack } from '../stitch/track.ts'

/** What the line takes: stitches, thread, bobbins and time. */
export interface Reckoning {
  readonly stitches: readonly Stitches[]
  readonly byBand: readonly BandCount[]
  readonly thread: readonly ThreadUse[]
  readonly changes: readonly BobbinChange[]
  readonly time: TimeReckoning
  readonly walkingFoot: readonly WalkingFootCheck[]
}

/** What is done besides stitching. */
export interface Handling {
  readonly repositions: number
  readonly advances: number
  readonly threadChanges: number
  /** Full turns that the quilt would be turned with a foot that feeds forward only. */
  readonly turns: number
}

/** Reckons what it takes to stitch the lines as the plan asks. */
export function reckonLines(
  lines: readonly Line[],
  plan: Plan,
  { repositions, advances, threadChanges, turns }: Handling,
): Reckoning {
  const settings = {
    ...STITCH_DEFAULTS,
    lengthMm: plan.stitch.length,
    chordTolerance: plan.stitch.chordTolerance,
    tieOff: { count: plan.stitch.tieOff.count, lengthMm: plan.stitch.tieOff.length },
  }
  const threadSettings = {
    ...THREAD_DEFAULTS,
    thicknessMm: plan.batting.thickness,
    wasteShare: plan.thread.waste,
    tailMm: plan.thread.tail,
  }
  const tracks = lines.map((line) => layTrack(line, settings.cuspAngle))
  const stitches = lines.map((line, i) => layStitches(line, settings, tracks[i]))
  const sewn = lines.map((line, i) => ({ stitches: stitches[i]!, seams: seamStretchesOf(line) }))
  const changes = changesByThread(sewn, {
    ...threadSettings,
    capacityM: plan.thread.bobbinM,
    moveBackShare: 0.1,
  })
  const work = {
    starts: stitches,
    repositions,
    bobbinChanges: changes.length,
    threadChanges,
    turns: plan.machine.foot === 'walking' ? turns : 0,
    frameAdvances: advances,
  }
  return {
    stitches,
    byBand: lines.flatMap((line, i) => countByBand(line, stitches[i]!)),
    thread: reckonThread(stitches, threadSettings),
    changes,
    time: reckonTime(work, timeSettings(plan)),
    walkingFoot: checkWalkingFoot(
      lines,
      { ...WALKING_FOOT_DEFAULTS, pivotAngle: settings.cuspAngle },
      tracks,
    ),
  }
}

/** Each thread has bobbins of its own, which wait while another is in the machine. */
function changesByThread(sewn: readonly SewnStart[], settings: BobbinSettings): BobbinChange[] {
  const numbered = sewn.map((start, number) => ({ start, number }))
  const threads = [...new Set(sewn.map(({ stitches }) => stitches.thread))]
  const changes = threads.flatMap((thread) => {
    const own = numbered.filter(({ start }) => start.stitches.thread === thread)
    return placeBobbinChanges(
      own.map(({ start }) => start),
      settings,
    ).map((change) => ({ ...change, start: own[change.start]!.number }))
  })
  return changes.sort((a, b) => a.start - b.start || a.alongMm - b.alongMm)
}

/** The machine's rates as the plan gives them. */
const timeSettings = ({ machine }: Plan): TimeSettings => ({
  stitchesPerMinute: machine.speed,
  tightCurveSpeed: machine.tightCurveSpeed,
  tightRadius: machine.tightRadius,
  repositionSeconds: machine.repositionSeconds,
  bobbinSeconds: machine.bobbinSeconds,
  startSeconds: machine.startSeconds,
  advanceSeconds: machine.advanceSeconds,
  threadSeconds: machine.threadSeconds,
  turnSeconds: machine.turnSeconds,
})
