import { estimateBobbin } from '../stitch/bobbin.ts'
import { type ThreadSystem, texOf } from '../stitch/thread-size.ts'
import { MM_PER } from '../units.ts'
import { RANGES } from './limits.ts'
import type { ThreadPlan } from './plan.ts'
import type { PlanFile } from './schema.ts'
import type { Settling } from './settling.ts'

type ThreadFile = NonNullable<PlanFile['thread']>

/** The thread, its size in tex and what a bobbin holds. */
export function settleThread(written: ThreadFile = {}, settling: Settling): ThreadPlan {
  const tex = settleTex(written, settling)
  return {
    tex,
    colour: settling.colour(written.colour, ['thread', 'colour'], '#fbf7ea'),
    ...settleBobbin(written.bobbin, tex, settling),
    waste: settling.number(written.waste, ['thread', 'waste'], { range: RANGES.share, fallback: 0.15 }),
    candidates: (written.candidates ?? []).map(({ name, colour }, i) => ({
      name,
      colour: settling.colour(colour, ['thread', 'candidates', i, 'colour'], '#000000'),
    })),
  }
}

function settleBobbin(
  bobbin: ThreadFile['bobbin'],
  tex: number,
  settling: Settling,
): Pick<ThreadPlan, 'bobbinM' | 'isEstimate'> {
  if (bobbin === undefined || typeof bobbin === 'object')
    return { bobbinM: estimateBobbin(bobbin?.class ?? 'L', tex), isEstimate: true }
  const mm = settling.length(bobbin, ['thread', 'bobbin'], { range: RANGES.bobbin, fallback: 75_000 })
  return { bobbinM: mm / MM_PER.m, isEstimate: false }
}

const SYSTEMS: readonly ThreadSystem[] = ['tex', 'wt', 'denier', 'dtex', 'nm', 'ne']

function settleTex(thread: ThreadFile, settling: Settling): number {
  const given = SYSTEMS.filter((system) => thread[system] !== undefined)
  if (given.length > 1) {
    const text = `gives its size as ${given.join(' and ')}; give one of them`
    settling.problems.add('plan/thread-size', ['thread'], text)
  }
  const [system] = given
  if (!system) return 30
  const value = settling.number(thread[system], ['thread', system], {
    range: system === 'dtex' ? RANGES.dtex : RANGES.threadSize,
    fallback: 30,
  })
  return texOf({ system, value })
}
