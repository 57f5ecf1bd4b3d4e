import { type Evenness, UNEVEN_RATIO } from '../check/evenness.ts'
import type { Gap } from '../check/largest-gap.ts'
import type { Choices } from '../choose/choose-plan.ts'
import { bandsAbout } from '../choose/open-gaps.ts'
import { DENSITY } from '../choose/weigh.ts'
import type { Plan } from '../plan/plan.ts'
import { type Quilt, wholeCloth } from '../quilt/quilt.ts'
import type { QuiltGaps } from './find-gaps.ts'
import type { Report } from './report.ts'

type Entry = NonNullable<Report['choices']>

/** What the finished quilt says of the choices. */
interface Outcome {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly gaps: QuiltGaps
  readonly evenness: Evenness
}

/** The choices as report.json has them: what was chosen and why, and what no choice can help. */
export function choicesEntry(choices: Choices, outcome: Outcome): Entry {
  const { open, made } = choices
  return {
    spacing: open.spacing,
    density: open.density,
    wantedMmPerCm2: round(DENSITY[open.density] * 100),
    made: made.map(({ part, filler, value, ...choice }) => ({
      at: choice.at,
      part: part === '' ? null : part,
      what: choice.what,
      filler: filler ?? null,
      value: value ? { name: value.key, mm: round(value.mm) } : null,
      reason: choice.reason,
    })),
    overLimit: overLimit(choices, outcome),
    uneven: uneven(choices, outcome),
  }
}

const round = (value: number): number => Math.round(value * 1000) / 1000

function overLimit(choices: Choices, { plan, quilt, gaps }: Outcome): Entry['overLimit'] {
  const { limit } = plan.batting
  const cloth = plan.allOver ? wholeCloth(quilt) : quilt
  const entry = (at: string, { circle }: { circle: Gap }): Entry['overLimit'] => {
    if (circle.sizeMm <= limit) return []
    return [
      {
        at,
        gapMm: round(circle.sizeMm),
        overMm: round(circle.sizeMm - limit),
        why: choices.whyOpen(bandsAbout(circle, cloth)),
      },
    ]
  }
  const whole = entry('quilt', gaps.whole)
  return plan.allOver
    ? whole
    : [...whole, ...plan.bands.flatMap(({ name }, i) => entry(name, gaps.bands[i]!))]
}

function uneven(choices: Choices, { plan, evenness: { densities } }: Outcome): Entry['uneven'] {
  const indexOf = (name: string) => plan.bands.findIndex((band) => band.name === name)
  // One filler over all is as even as can be.
  if (plan.allOver) return []
  return densities.flatMap(({ name, ratio }, i) => {
    if (i === 0 || ratio === undefined || ratio <= UNEVEN_RATIO) return []
    const beside = densities[i - 1]!.name
    const why = choices.whyUneven([indexOf(beside), indexOf(name)])
    return [{ at: name, beside, ratio: Number.isFinite(ratio) ? round(ratio) : null, why }]
  })
}
