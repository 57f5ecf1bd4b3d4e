import type { Point } from '../geometry/point.ts'
import { flattenStroke } from '../geometry/stroke.ts'
import type { Pieces } from './pieces.ts'

/** How far a chord may leave the curve where only moves of the quilt are counted, mm. */
export const MOVES_CHORD = 0.5

/** Each piece as a chain of chords: what moves of the quilt are counted on. */
export const pieceChords = ({ pieces }: Pieces): Point[][] =>
  pieces.map(({ stroke }) => flattenStroke(stroke, MOVES_CHORD))
