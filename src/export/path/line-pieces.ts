import type { Point } from '../../geometry/point.ts'
import type { Segment } from '../../geometry/segment.ts'
import { type Stroke, strokeThrough } from '../../geometry/stroke.ts'
import type { Line, LinePart, PartKind } from '../../stitch/line.ts'
import type { NeedlePoint } from '../drawing.ts'

/** Neighbouring parts of one kind, band and area, as one stroke, mm on the quilt. */
export interface PieceOfLine {
  readonly kind: PartKind
  readonly band: number | undefined
  readonly area: number
  readonly stroke: Stroke
}

const belongTogether = (a: PieceOfLine, b: LinePart): boolean =>
  a.kind === b.kind && a.band === b.band && a.area === b.area

/** The parts that have length, neighbours of one kind, band and area joined. */
export function piecesOfLine(line: Line): PieceOfLine[] {
  const pieces: (PieceOfLine & { stroke: { segments: Segment[] } })[] = []
  for (const part of line.parts) {
    if (part.stroke.segments.length === 0) continue
    const last = pieces.at(-1)
    if (last && belongTogether(last, part)) for (const s of part.stroke.segments) last.stroke.segments.push(s)
    else
      pieces.push({
        ...keyOf(part),
        stroke: { start: part.stroke.start, segments: [...part.stroke.segments] },
      })
  }
  return pieces
}

const keyOf = (part: LinePart) => ({ kind: part.kind, band: part.band, area: part.area })

/** The needle points of a line, straight from one to the next, cut where kind, band or area change. */
export function piecesOfStitches(line: Line, needle: readonly NeedlePoint[]): PieceOfLine[] {
  const pieces: { part: LinePart; points: Point[] }[] = []
  let before: Point | undefined
  for (const { at, part: index } of needle) {
    const part = line.parts[index]
    if (!part) throw new Error(`a stitch names part ${index}, but the line has ${line.parts.length} parts`)
    const last = pieces.at(-1)
    if (last && belongTogether({ ...keyOf(last.part), stroke: last.part.stroke }, part)) last.points.push(at)
    else pieces.push({ part, points: before ? [before, at] : [at] })
    before = at
  }
  return pieces
    .filter((p) => p.points.length > 1)
    .map((p) => ({ ...keyOf(p.part), stroke: strokeThrough(p.points) }))
}
