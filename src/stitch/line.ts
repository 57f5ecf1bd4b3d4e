import type { Stroke } from '../geometry/stroke.ts'

/**
 * What a part of the line is for. `fill`: a filler; `travel`: in a seam, only to get somewhere; `crossing`: the point
 * (no length) where the line passes from one band into the next; `ditch`: asked-for stitching in a seam; `tie-off`.
 */
export type PartKind = 'fill' | 'travel' | 'crossing' | 'ditch' | 'tie-off'

/** A part of the line: what it is, where it belongs, and its stroke. Each starts where the one before it ended. */
export interface LinePart {
  readonly kind: PartKind
  /** Index of the band it belongs to, from 0; -1 for the centre, undefined for a seam. */
  readonly band?: number
  /** Along the edge of a region that is kept free of stitching: its index. */
  readonly region?: number
  /** Index of the area (in the order of work, from 0) in which it is stitched. */
  readonly area: number
  /** Why it is there, for travel and overlap: "to the start of the next area". */
  readonly reason?: string
  readonly stroke: Stroke
}

/** One thread start: stitched without a stop from its first point to its last. */
export interface Line {
  readonly parts: readonly LinePart[]
  /** CSS colour of the thread. */
  readonly thread: string
}
