import type { Param } from '../motif/contract.ts'
import { roundLength } from '../plan/length.ts'
import { type LengthUnit, MM_PER } from '../units.ts'

/** How finely values are tried: `fine` where only the value is open, `coarse` where the filler is open too. */
export type Steps = 'fine' | 'coarse'

/** Each value is so many times the one before it. */
const RATIO: Readonly<Record<Steps, number>> = { fine: 2 ** 0.25, coarse: 2 ** 0.5 }
/** How far from the usual value they go, in either direction. */
const FARTHEST: Readonly<Record<Steps, number>> = { fine: 8, coarse: 2 ** 1.5 }
/**
 * The gap that lines leave is larger than the distance between them: by this factor where their value goes down to the
 * parameter's least anyway, and by that in a corner, where repeats fan out.
 */
const GAP: Readonly<Record<Steps, number>> = { fine: 1.5, coarse: 2.5 }

/** What values are wanted for. */
export interface Aim {
  /** mm */
  readonly usual: number
  /** The greatest gap allowed, mm: values go down to where it can be kept. */
  readonly limit: number
  readonly units: LengthUnit
  readonly steps: Steps
}

/**
 * Values worth trying for a length, from small to large: the usual one, and others that can be measured with a ruler of
 * the plan's units, as far as the parameter allows.
 */
export function closeValues(
  param: Param & { readonly kind: 'length' },
  { usual, limit, units, steps }: Aim,
): number[] {
  const allowed = (value: number) => Math.min(param.max, Math.max(param.min, value))
  const least = Math.max(param.min, Math.min(usual / FARTHEST[steps], limit / GAP[steps]))
  const values = steps === 'fine' ? [usual, param.min] : [usual]
  for (let value = usual / RATIO[steps]; value > least; value /= RATIO[steps]) values.push(value)
  for (let value = usual * RATIO[steps]; value < usual * FARTHEST[steps]; value *= RATIO[steps])
    values.push(value)
  const marked = values.map((value) => (value === usual ? roundLength(usual) : allowed(toMark(value, units))))
  return [...new Set(marked)].sort((a, b) => a - b)
}

/** The nearest mark of a ruler: a sixteenth of an inch or half a mm, half of these where lines lie close. */
function toMark(mm: number, units: LengthUnit): number {
  const coarse = units === 'in' ? MM_PER.in / 16 : 0.5
  const mark = mm < 8 * coarse ? coarse / 2 : coarse
  return roundLength(Math.round(mm / mark) * mark)
}
