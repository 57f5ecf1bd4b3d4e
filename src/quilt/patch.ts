import type { Point } from '../geometry/point.ts'

/** One patch of fabric in a band, as it lies on the quilt. */
export interface Patch {
  /** Index of the band. */
  readonly band: number
  /** Index of the band's side that it belongs to; a corner belongs to the side that begins there. */
  readonly side: number
  readonly name: string
  /** A CSS colour. */
  readonly fabric: string
  /** Corners clockwise on the screen; convex. */
  readonly outline: readonly Point[]
  /** Where its middle lies along its side: -1 at the side's first inner corner, 1 at its last; beyond in a corner. */
  readonly along: number
  /** The same along the side of the bands outside, where those run another way. */
  readonly alongOuter?: number
}
