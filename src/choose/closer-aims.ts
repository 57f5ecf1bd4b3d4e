import type { OpenGap } from './open-gaps.ts'
import type { Ground } from './slot.ts'
import type { Mix, Scales } from './weigh.ts'

/** What was found of a ground while it was stitched closer and closer. */
interface Trial {
  /** The aim at which its gap was smallest, mm, and that gap over the limit. */
  readonly best: { readonly aim: number; readonly times: number }
  /** How often in a row going closer did not make the gap smaller. */
  readonly inVain: number
}

/** For each ground (by its band) what has been tried. */
export type Trials = ReadonlyMap<number, Trial>

/** Aims for gaps and what led to them. */
export interface Aims {
  readonly aims: Scales['aims']
  readonly trials: Trials
}

/** How much closer at least, and at most, in one go. */
const CLOSER = { least: 0.94, most: 0.7 }
/** A gap that is no smaller than this part of the smallest before is not smaller. */
const SMALLER = 0.98
/** So often in a row is going closer tried in vain. */
const PATIENCE = 3

/**
 * Aims at smaller gaps in the grounds about each gap that is past the limit. Where going closer has not helped a few times
 * in a row (the gap is in a corner, or in a wide place between two bands) the aim goes back to the one that came closest, and
 * stays: lines that are laid closer in vain make the band only uneven with its neighbours.
 */
export function closerAims(
  { aims, trials }: Aims,
  gaps: readonly OpenGap[],
  { grounds, mixes }: { readonly grounds: readonly Ground[]; readonly mixes: readonly Mix[] },
): Aims {
  const [closer, noted] = [new Map(aims), new Map(trials)]
  grounds.forEach(({ band }, i) => {
    const times = Math.max(0, ...gaps.filter(({ bands }) => bands.includes(band)).map((gap) => gap.times))
    if (times === 0) return
    const aim = aims.get(band)!
    const trial = tried(trials.get(band), { aim, times })
    noted.set(band, trial)
    if (trial.inVain >= PATIENCE) {
      closer.set(band, trial.best.aim)
      return
    }
    const present = Math.max(0, ...mixes[i]!.options.map((option) => option?.measured.gapMm ?? 0))
    closer.set(band, Math.min(aim, present) * Math.min(CLOSER.least, Math.max(CLOSER.most, 1 / times)))
  })
  return { aims: closer, trials: noted }
}

function tried(before: Trial | undefined, now: Trial['best']): Trial {
  if (before && before.inVain >= PATIENCE) return before
  if (!before || now.times < SMALLER * before.best.times) return { best: now, inVain: 0 }
  return { best: before.best, inVain: before.inVain + 1 }
}
