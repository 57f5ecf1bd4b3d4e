import type { FillerChoice } from '../plan/plan.ts'
import type { Measured } from './measure.ts'

/** One way to fill a slot. */
export interface Option {
  readonly filler: FillerChoice
  readonly title: string
  /** Name and label of the value that is open, if one is. */
  readonly open: { readonly key: string; readonly label: string } | undefined
  /** The open value over its usual one; 1 if none is open. */
  readonly ofUsual: number
  /** Finished widths that it suits, mm; undefined where widths don't matter. */
  readonly suits: { readonly min: number; readonly max: number } | undefined
  readonly measured: Measured
}

/** A part of the quilt that has one filler: a band, a side with a filler of its own, patches of one name, the centre. */
export interface Slot {
  readonly kind: 'band' | 'side' | 'patch' | 'centre'
  /** Name of the side or the patch; empty for a whole band and for the centre. */
  readonly part: string
  readonly areaMm2: number
  /** Widths of its strips, or what plays their part, mm. No gap in it is wider than the greatest. */
  readonly widths: readonly number[]
  /** The choice of the filler is left to the program. */
  readonly isAuto: boolean
  /** At least one, unless nothing suits. */
  readonly options: readonly Option[]
}

/** A band, or the centre, with all that is stitched in it. */
export interface Ground {
  /** The band's name, or `centre`. */
  readonly at: string
  /** Index of the band; -1 for the centre. */
  readonly band: number
  readonly areaMm2: number
  readonly slots: readonly Slot[]
}
