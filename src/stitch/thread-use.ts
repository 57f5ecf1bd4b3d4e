import type { Stitches } from './lay-stitches.ts'
import { assertWithin } from './within-limits.ts'

/** What decides how much thread stitches take. */
export interface ThreadSettings {
  /** Thickness of the sandwich under the stitch, compressed by it, mm. */
  readonly thicknessMm: number
  /** Share added for waste: 0.15 for 15 %. */
  readonly wasteShare: number
  /** Length of each thread left at every start and every stop, to hold and bury, mm. */
  readonly tailMm: number
}

/**
 * @source waste 10 to 20 %: thread makers' bulletins; tails of 150 mm: common practice, no source; 1.5 mm under the
 * stitch: an assumption of the project (see batting.ts)
 */
export const THREAD_DEFAULTS: ThreadSettings = { thicknessMm: 1.5, wasteShare: 0.15, tailMm: 150 }

/** Lengths of the two threads of a lockstitch, mm. */
export interface ThreadLengths {
  readonly needleMm: number
  readonly bobbinMm: number
}

/** @throws PlanError `thread/setting` naming every setting that cannot be worked with */
export function assertThreadSettings({ thicknessMm, wasteShare, tailMm }: ThreadSettings): void {
  assertWithin('thread/setting', [
    { at: 'thread.thickness', value: thicknessMm, min: 0, max: 25, unit: 'mm' },
    { at: 'thread.waste', value: wasteShare, min: 0, max: 1, unit: '(a share)' },
    { at: 'thread.tail', value: tailMm, min: 0, max: 1000, unit: 'mm' },
  ])
}

/**
 * The thread in `count` stitches that are `lengthMm` long together, without waste or tails. Each thread runs along
 * the stitch and half way through the sandwich at both of its ends, where the two interlace.
 *
 * @source ISO 4915 stitch type 301: C = 2 + 2 T S thread per length of seam, halved between the two threads
 */
export function threadInStitches(
  { count, lengthMm }: { readonly count: number; readonly lengthMm: number },
  thicknessMm: number,
): ThreadLengths {
  const each = lengthMm + count * thicknessMm
  return { needleMm: each, bobbinMm: each }
}

/** Thread per length of seam, both threads together: a ratio. `stitchMm` is the length of a stitch, mm. */
export function threadRatio(stitchMm: number, thicknessMm: number): number {
  const { needleMm, bobbinMm } = threadInStitches({ count: 1, lengthMm: stitchMm }, thicknessMm)
  return (needleMm + bobbinMm) / stitchMm
}

/** The thread that one colour takes, m: `needleM` and `bobbinM` with waste and tails, the others without. */
export interface ThreadUse {
  readonly thread: string
  readonly starts: number
  readonly sewnNeedleM: number
  readonly sewnBobbinM: number
  readonly needleM: number
  readonly bobbinM: number
}

/**
 * The thread for all starts, one entry for each colour in the order in which they are first used.
 *
 * @throws PlanError `thread/setting` for nonsense settings
 */
export function reckonThread(
  starts: readonly Pick<Stitches, 'count' | 'lengthMm' | 'thread'>[],
  settings: ThreadSettings = THREAD_DEFAULTS,
): ThreadUse[] {
  assertThreadSettings(settings)
  const colours = [...new Set(starts.map((start) => start.thread))]
  return colours.map((colour) =>
    useOf(
      starts.filter((start) => start.thread === colour),
      settings,
    ),
  )
}

function useOf(
  starts: readonly Pick<Stitches, 'count' | 'lengthMm' | 'thread'>[],
  { thicknessMm, wasteShare, tailMm }: ThreadSettings,
): ThreadUse {
  let [needle, bobbin] = [0, 0]
  for (const start of starts) {
    const { needleMm, bobbinMm } = threadInStitches(start, thicknessMm)
    needle += needleMm
    bobbin += bobbinMm
  }
  const tails = 2 * tailMm * starts.length
  const total = (sewn: number) => (sewn * (1 + wasteShare) + tails) / 1000
  return {
    thread: starts[0]!.thread,
    starts: starts.length,
    sewnNeedleM: needle / 1000,
    sewnBobbinM: bobbin / 1000,
    needleM: total(needle),
    bobbinM: total(bobbin),
  }
}

/** How many spools of `spoolM` m hold `threadM` m. @throws PlanError `thread/spool` for a spool without thread */
export function spoolsNeeded(threadM: number, spoolM: number): number {
  assertWithin('thread/spool', [{ at: 'thread.spool', value: spoolM, min: 1, max: 1e5, unit: 'm' }])
  return Math.max(0, Math.ceil(threadM / spoolM - 1e-9))
}
