import type { Point } from '../geometry/point.ts'
import type { StitchSettings } from './settings.ts'
import { pointOnPiece, type Track } from './track.ts'

/** Places where the needle goes down, in order, as flat lists. */
export interface Needles {
  readonly xs: number[]
  readonly ys: number[]
  /** Distance along the line, mm. */
  readonly along: number[]
  /** The piece of the track that each lies in. */
  readonly pieces: number[]
  /** 1 for a cusp or an end of the line. */
  readonly fixed: number[]
  /** 1 where the stitch that ends here belongs to a tie-off. */
  readonly tied: number[]
}

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
export type Ends = readonly [Needle, Needle]

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
export function needleAt(track: Track, [a, b]: Ends, along: number): Needle {
  let piece = a.piece
  while (piece < b.piece && track.ends[piece]! < along) piece++
  return { point: pointOnPiece(track, piece, along), along, piece, tied: b.tied }
}
