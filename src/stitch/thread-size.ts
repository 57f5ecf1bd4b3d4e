import { MM_PER } from '../units.ts'
import { assertWithin } from './within-limits.ts'

/**
 * Systems in which a thread's size is written. `tex`: g per km; `dtex`: g per 10 km; `denier`: g per 9 km; `nm`: m per
 * g; `wt`: km per kg, as printed on spools; `ne`: hanks of 840 yards per pound.
 */
export const THREAD_SYSTEMS = ['tex', 'dtex', 'denier', 'nm', 'wt', 'ne'] as const
export type ThreadSystem = (typeof THREAD_SYSTEMS)[number]

/** A thread's size as written: `{ system: 'ne', value: 40, plies: 2 }` for Ne 40/2. */
export interface ThreadSize {
  readonly system: ThreadSystem
  readonly value: number
  /** How many strands of that size are twisted together; 1 if the size is the whole thread's. */
  readonly plies?: number
}

/** g in a pound. @source international yard and pound agreement, 1959 */
const GRAMS_PER_POUND = 453.59237
const KM_PER_HANK = (840 * MM_PER.yd) / 1e6

/** Tex times the count of a system that counts length per weight. */
const INVERSE = { nm: 1000, wt: 1000, ne: GRAMS_PER_POUND / KM_PER_HANK } as const
/** Tex per unit of a system that counts weight per length. */
const DIRECT = { tex: 1, dtex: 1 / 10, denier: 1 / 9 } as const

const isDirect = (system: ThreadSystem): system is keyof typeof DIRECT => system in DIRECT

/**
 * The size of a whole thread in Tex (g per km).
 *
 * @throws PlanError `thread/size` if the value or the plies are not above 0
 * @source Tex x Nm = 1000, Tex = denier / 9, Tex x Ne = 453.59237 g / (840 yd in km) = 590.5412
 * @example texOf({ system: 'wt', value: 50 }) // 20
 */
export function texOf({ system, value, plies = 1 }: ThreadSize): number {
  assertWithin('thread/size', [
    { at: 'thread.size', value, min: 1e-3, max: 1e5, unit: system },
    { at: 'thread.plies', value: plies, min: 1, max: 24, unit: 'plies' },
  ])
  return (isDirect(system) ? value * DIRECT[system] : INVERSE[system] / value) * plies
}

/** The size of a thread of `tex` in another system, as one strand. @throws PlanError `thread/size` */
export function sizeFromTex(tex: number, system: ThreadSystem): number {
  assertWithin('thread/size', [{ at: 'thread.tex', value: tex, min: 1e-3, max: 1e6, unit: 'tex' }])
  return isDirect(system) ? tex / DIRECT[system] : INVERSE[system] / tex
}

/**
 * The diameter of a spun thread, mm.
 *
 * @source Peirce, J. Textile Inst. 28 (1937) T45-T96 (from memory): d = 1 / (28 sqrt(Ne)) inches
 */
export const diameterOf = (tex: number): number => MM_PER.in / (28 * Math.sqrt(sizeFromTex(tex, 'ne')))
