import type { Point } from '../geometry/point.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { Params, ValuesOf } from './contract.ts'

/** A patch in a band's corner: u from 0 to `width`, v from 0 to `height`, mm. */
export interface Patch {
  /** mm */
  readonly width: number
  /** mm */
  readonly height: number
  /** Where the line comes in and where it goes out: any two places on the outline, or the same one twice. */
  readonly entry: Point
  readonly exit: Point
}

/** A motif for a cornerstone, as data and a pure function. */
export interface CornerMotif<P extends Params = Params> {
  readonly title: string
  /** Where the shape comes from. */
  readonly source: string
  readonly params: P
  /** Sides that it suits, mm. */
  readonly suits: { readonly min: number; readonly max: number }
  readonly joints: 'smooth' | 'cusped'
  /** Fills the patch with one stroke from entry to exit that stays inside; scaling patch and lengths scales it. */
  draw(patch: Patch, values: ValuesOf<P>): Stroke
}

/** Declares a corner motif: infers the types of its values from `params`. */
export const defineCorner = <const P extends Params>(motif: CornerMotif<P>): CornerMotif<P> => motif
