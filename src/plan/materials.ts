import { type BattingKind, compressedThickness, BATTINGS as KINDS } from '../stitch/batting.ts'
import { type ThreadSystem as StitchSystem, texOf } from '../stitch/thread-size.ts'
import { roundLength } from './length.ts'

export { estimateBobbin } from '../stitch/bobbin.ts'

/** What may be assumed of a kind of batting where its label is not at hand. */
interface Batting {
  /** Greatest distance allowed between lines of quilting, mm. */
  readonly limitMm: number
  /** Thickness of top, batting and backing under a stitch, mm. */
  readonly thicknessMm: number
  /** The greatest share by which it may shrink in the wash. */
  readonly shrinkage: number
}

/** The kinds of batting that a plan may name, with lengths as a plan keeps them. Their figures stand in `stitch/batting.ts`. */
export const BATTINGS = Object.fromEntries(
  Object.entries(KINDS).map(([name, kind]) => [
    name,
    {
      limitMm: roundLength(kind.limitMm),
      thicknessMm: roundLength(compressedThickness(kind)),
      shrinkage: kind.shrinkage[1],
    },
  ]),
) as Readonly<Record<BattingKind, Batting>>

/** How a plan calls the systems of thread sizes. */
const SYSTEMS = { tex: 'tex', weight: 'wt', denier: 'denier', nm: 'nm', ne: 'ne' } as const satisfies Record<
  string,
  StitchSystem
>

export type ThreadSystem = keyof typeof SYSTEMS
export const THREAD_SYSTEMS = Object.keys(SYSTEMS) as readonly ThreadSystem[]

/**
 * The size of a thread in Tex, g per km; NaN for what can be no thread, so that the reader refuses it with its place.
 *
 * @example toTex('weight', 50) // 20
 */
export const toTex = (system: ThreadSystem, value: number): number =>
  value >= 1e-3 && value <= 1e5 ? texOf({ system: SYSTEMS[system], value }) : Number.NaN
