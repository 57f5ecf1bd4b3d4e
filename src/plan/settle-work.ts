import { BATTINGS, type BattingKind, compressedThickness } from '../stitch/batting.ts'
import { TIME_DEFAULTS } from '../stitch/time.ts'
import { inches, MM_PER } from '../units.ts'
import { RANGES } from './limits.ts'
import type { BattingPlan, MachinePlan, StitchPlan } from './plan.ts'
import type { PlanFile } from './schema.ts'
import type { Settling } from './settling.ts'

/** The machine, its reach and its speed. */
export function settleMachine(written: PlanFile['machine'], settling: Settling): MachinePlan {
  const reach = (i: 0 | 1) =>
    settling.length(written?.reach?.[i], ['machine', 'reach', i], {
      range: RANGES.reach,
      fallback: inches(14),
    })
  return {
    kind: written?.kind ?? 'domestic',
    reach: [reach(0), reach(1)],
    speed: settling.number(written?.speed, ['machine', 'speed'], {
      range: RANGES.speed,
      fallback: TIME_DEFAULTS.stitchesPerMinute,
    }),
  }
}

/** The stitches: their length, given as such or as stitches per inch. */
export function settleStitch(written: PlanFile['stitch'], settling: Settling): StitchPlan {
  if (written?.length !== undefined && written.perInch !== undefined)
    settling.problems.add('plan/stitch', ['stitch'], 'has both length and perInch; give one of them')
  const perInch = settling.number(written?.perInch, ['stitch', 'perInch'], {
    range: RANGES.perInch,
    fallback: 10,
  })
  return {
    length: settling.length(written?.length, ['stitch', 'length'], {
      range: RANGES.stitch,
      fallback: written?.perInch === undefined ? 2.5 : MM_PER.in / perInch,
    }),
    tieOffs: settling.number(written?.tieOffs, ['stitch', 'tieOffs'], { range: RANGES.tieOffs, fallback: 5 }),
  }
}

/** The batting, with what is usual for its kind where the plan doesn't say. */
export function settleBatting(written: PlanFile['batting'], settling: Settling): BattingPlan {
  const kind = written?.kind ?? 'cotton-scrim'
  const isKnown = Object.hasOwn(BATTINGS, kind)
  if (!isKnown)
    settling.refuseName('plan/batting', ['batting', 'kind'], { name: kind, known: Object.keys(BATTINGS) })
  const batting = isKnown ? BATTINGS[kind as BattingKind] : BATTINGS['cotton-scrim']
  return {
    kind,
    limit: settling.length(written?.limit, ['batting', 'limit'], {
      range: RANGES.battingLimit,
      fallback: batting.limitMm,
    }),
    thickness: settling.length(written?.thickness, ['batting', 'thickness'], {
      range: RANGES.thickness,
      fallback: compressedThickness(batting),
    }),
  }
}
