import type { Plan } from '../plan/plan.ts'
import { type BobbinChange, placeBobbinChanges, seamStretchesOf } from '../stitch/bobbin-changes.ts'
import { type BandCount, countByBand, layStitches, type Stitches } from '../stitch/lay-stitches.ts'
import type { Line } from '../stitch/line.ts'
import { STITCH_DEFAULTS } from '../stitch/settings.ts'
import { reckonThread, THREAD_DEFAULTS, type ThreadUse } from '../stitch/thread-use.ts'
import { reckonTime, TIME_DEFAULTS, type TimeReckoning } from '../stitch/time.ts'

/** What the line takes: stitches, thread, bobbins and time. */
export interface Reckoning {
  readonly stitches: readonly Stitches[]
  readonly byBand: readonly BandCount[]
  readonly thread: readonly ThreadUse[]
  readonly changes: readonly BobbinChange[]
  readonly time: TimeReckoning
}

/** The machine's rates as the plan gives them. */
const timesOf = (machine: Plan['machine']) => ({
  stitchesPerMinute: machine.speed,
  repositionSeconds: machine.repositionSeconds,
  bobbinSeconds: machine.bobbinSeconds,
  startSeconds: machine.startSeconds,
  advanceSeconds: machine.advanceSeconds,
})

/** Reckons what it takes to stitch the lines as the plan asks. */
export function reckonLines(
  lines: readonly Line[],
  plan: Plan,
  { repositions }: { repositions: number },
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
  }
  const stitches = lines.map((line) => layStitches(line, settings))
  const sewn = lines.map((line, i) => ({ stitches: stitches[i]!, seams: seamStretchesOf(line) }))
  const changes = placeBobbinChanges(sewn, {
    ...threadSettings,
    capacityM: plan.thread.bobbinM,
    moveBackShare: 0.1,
  })
  const work = { starts: stitches, repositions, bobbinChanges: changes.length, frameAdvances: 0 }
  return {
    stitches,
    byBand: lines.flatMap((line, i) => countByBand(line, stitches[i]!)),
    thread: reckonThread(stitches, threadSettings),
    changes,
    time: reckonTime(work, { ...TIME_DEFAULTS, ...timesOf(plan.machine) }),
  }
}
