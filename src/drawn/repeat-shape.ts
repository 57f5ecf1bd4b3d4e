import type { Stroke } from '../geometry/stroke.ts'

/**
 * A repeat ready to be laid along a band, in widths of the band: u from 0 to `length`, v from 0 (inner edge) to 1 (outer
 * edge). Plain data.
 */
export type RepeatShape = AlternatingShape | FreeShape

/** A repeat in two halves: from the inner edge to the outer one, and back. */
interface AlternatingShape {
  readonly kind: 'alternate'
  readonly length: number
  /** From [0, 0] to [u, 1]. */
  readonly rise: Stroke
  /** From [u, 1] to [length, 0]. */
  readonly fall: Stroke
  readonly joints: 'smooth' | 'cusped'
}

/** A repeat that joins itself, from [0, `height`] to [`length`, `height`]. */
interface FreeShape {
  readonly kind: 'free'
  readonly length: number
  readonly height: number
  readonly repeat: Stroke
  /** After how many segments it meets an edge on its way. */
  readonly touches: readonly { readonly edge: 'inner' | 'outer'; readonly after: number }[]
  readonly joints: 'smooth' | 'cusped'
}
