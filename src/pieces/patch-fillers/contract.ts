import type { Point } from '../../geometry/point.ts'
import type { Stroke } from '../../geometry/stroke.ts'
import type { Params, ValuesOf } from '../../motif/contract.ts'
import { incircle } from './patch-shape.ts'

/**
 * A filler for one patch: a pure function from its corners (clockwise on the screen, convex, mm) to strokes. Each stroke
 * begins and ends at a corner and otherwise keeps inside the patch; scaling corners and lengths scales the strokes.
 */
export interface PatchFiller<P extends Params = Params> {
  readonly title: string
  /** Where the shape comes from. */
  readonly source: string
  readonly params: P
  /** Name of the value (a length) that sets how closely it is stitched: a smaller one is denser. Left out: none does. */
  readonly closeness?: string
  /** The patch's own seams are stitched in the ditch. */
  readonly ditch: boolean
  /**
   * For a filler that is one stroke from the first corner to another: which corner that is, for each corner that might be
   * the first.
   */
  leadsTo?(corners: readonly Point[]): readonly number[]
  draw(corners: readonly Point[], values: ValuesOf<P>): readonly Stroke[]
}

/** Declares a filler for patches: infers the types of its values from `params`. */
export const definePatchFiller = <const P extends Params>(filler: PatchFiller<P>): PatchFiller<P> => filler

/** A filler for patches with the values that were given for it. */
export interface PatchFill {
  readonly name: string
  readonly filler: PatchFiller
  /** Lengths in mm; what is left out takes the filler's default. */
  readonly values: Readonly<Record<string, number | string>>
}

/** A filler's strokes in one patch. Defaults given in widths take the diameter of the largest circle in the patch. */
export function fillPatch({ filler, values }: PatchFill, corners: readonly Point[]): readonly Stroke[] {
  const size = 2 * incircle(corners).radius
  const entries = Object.entries(filler.params).map(([key, param]) => {
    const usual =
      param.kind === 'length' && typeof param.default !== 'number'
        ? Math.min(param.max, Math.max(param.min, param.default.widths * size))
        : param.default
    return [key, values[key] ?? usual]
  })
  return filler.draw(corners, Object.fromEntries(entries))
}
