import type { Point } from '../geometry/point.ts'
import type { StitchSettings } from './settings.ts'
import { pointOnPiece, type Track } from './track.ts'

/** Places where the needle goes down, in order, as flat arrays. */
export interface Needles {
  readonly xs: Float64Array
  readonly ys: Float64Array
  /** Distance along the line, mm. */
  readonly along: Float64Array
  /** The piece of the track that each lies in. */
  readonly pieces: Uint32Array
  /** 1 for a cusp or an end of the line. */
  readonly fixed: Uint8Array
  /** 1 where the stitch that ends here belongs to a tie-off. */
  readonly tied: Uint8Array
}

/** The first so many of them, in the same arrays. */
export const firstOf = ({ xs, ys, along, pieces, fixed, tied }: Needles, count: number): Needles => ({
  xs: xs.subarray(0, count),
  ys: ys.subarray(0, count),
  along: along.subarray(0, count),
  pieces: pieces.subarray(0, count),
  fixed: fixed.subarray(0, count),
  tied: tied.subarray(0, count),
})

/** One place where the needle goes down. */
export interface Needle {
  readonly point: Point
  readonly along: number
  readonly piece: number
  readonly tied: number
}

/** What needle points are laid on and by which rules. */
export interface NeedleWork {
  readonly track: Track
  readonly settings: StitchSettings
}

/** The needle points at the ends of a stitch. */
export type StitchEnds = readonly [Needle, Needle]

/** Needle point `i`. */
export const needleOf = ({ xs, ys, along, pieces, tied }: Needles, i: number): Needle => ({
  point: [xs[i]!, ys[i]!],
  along: along[i]!,
  piece: pieces[i]!,
  tied: tied[i]!,
})

/** Length of the stitch between two needle points, mm. */
export function chordOf({ point: [ax, ay] }: Needle, { point: [bx, by] }: Needle): number {
  return Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay))
}

/** The needle point at `along` mm, between two others. */
export function needleAt(track: Track, [a, b]: StitchEnds, along: number): Needle {
  let piece = a.piece
  while (piece < b.piece && track.ends[piece]! < along) piece++
  return { point: pointOnPiece(track, piece, along), along, piece, tied: b.tied }
}
