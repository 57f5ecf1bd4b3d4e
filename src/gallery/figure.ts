import type { Point } from '../geometry/point.ts'
import type { Box, Stroke } from '../geometry/stroke.ts'
import type { Params } from '../motif/contract.ts'
import type { Measures } from './measure.ts'

/** A filler drawn at one size, and what was measured on it. */
export interface Figure {
  /** Its size in words. */
  readonly label: string
  /** What is shown of it, mm. */
  readonly view: Box
  readonly strokes: readonly Stroke[]
  /** The seams about it. */
  readonly seams: readonly (readonly Point[])[]
  readonly measures: Measures
}

/** A filler in the gallery. */
export interface GalleryEntry {
  /** The name that a plan calls it by. */
  readonly name: string
  readonly title: string
  /** Where its shape comes from. */
  readonly source: string
  /** The sizes that it suits, in words. */
  readonly suits: string
  readonly params: Params
  /** From small to large. */
  readonly figures: readonly Figure[]
}
