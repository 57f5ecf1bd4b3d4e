import { checkWalkingFoot, WALKING_FOOT_DEFAULTS } from '../check/walking-foot.ts'
import { joinStrokes, type Stroke } from '../geometry/stroke.ts'
import type { Pieces } from '../pieces/pieces.ts'
import type { Ground } from './slot.ts'
import type { Mix } from './weigh.ts'

/** Stricter than the report: where the line crosses into another band there is a turn more. */
const SETTINGS = {
  ...WALKING_FOOT_DEFAULTS,
  tightestRadius: WALKING_FOOT_DEFAULTS.tightestRadius * 1.02,
  mostPivots: WALKING_FOOT_DEFAULTS.mostPivots * 0.75,
  mostReversals: WALKING_FOOT_DEFAULTS.mostReversals * 0.85,
}

/** The bands (-1: the centre) of a filled quilt that a walking foot cannot stitch. */
export function unfedBands({ pieces, stretches }: Pieces): number[] {
  const inStretch = new Set<number>()
  const runs = stretches.flatMap(({ band, pieces: [first, end] }) => {
    for (let i = first; i < end; i++) inStretch.add(i)
    return end > first ? [run(band, joinStrokes(pieces.slice(first, end).map(({ stroke }) => stroke)))] : []
  })
  const single = pieces.flatMap(({ band, stroke }, i) => (inStretch.has(i) ? [] : [run(band, stroke)]))
  return checkWalkingFoot([...runs, ...single], SETTINGS).flatMap(({ band, verdict }) =>
    verdict === 'cannot' && band !== undefined ? [band] : [],
  )
}

const run = (band: number, stroke: Stroke) => ({
  parts: [{ kind: 'fill', band, area: 0, stroke } as const],
  thread: '',
})

/** For each ground (by its band), the greatest value of each filler that a walking foot was found unable to stitch there. */
export type Unfed = ReadonlyMap<number, ReadonlyMap<string, number>>

/** Values this much larger than one that a foot cannot stitch are not tried either. */
const FARTHER = 2.5

/** Adds to what is known what was found in a filled quilt. */
export function noteUnfed(
  unfed: Unfed,
  bands: readonly number[],
  { grounds, mixes }: { grounds: readonly Ground[]; mixes: readonly Mix[] },
): Unfed {
  const noted = new Map(unfed)
  grounds.forEach(({ band }, i) => {
    if (!bands.includes(band)) return
    const known = new Map(noted.get(band))
    for (const option of mixes[i]!.options)
      if (option) {
        const name = option.filler.name
        known.set(name, Math.max(known.get(name) ?? 0, FARTHER * option.ofUsual))
      }
    noted.set(band, known)
  })
  return noted
}
