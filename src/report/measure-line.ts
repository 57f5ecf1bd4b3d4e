import { measureOverlap, type Overlap } from '../check/overlap.ts'
import { type Polyline, polylineOf } from '../check/polyline.ts'
import { countRepositions, type Reposition } from '../check/repositions.ts'
import { sumTurning } from '../check/turning.ts'
import type { Point } from '../geometry/point.ts'
import { flattenSegment } from '../geometry/segment.ts'
import { eachSegment, strokeLength } from '../geometry/stroke.ts'
import type { Reach } from '../pieces/pieces.ts'
import type { Line } from '../stitch/line.ts'

/** What is measured on the finished line itself. */
export interface LineFigures {
  readonly lengthMm: number
  readonly travelMm: number
  readonly overlapMm: number
  readonly overlaps: readonly Overlap[]
  readonly repositions: readonly Reposition[]
  /** How much the quilt is turned so that the line always runs in comfortable directions, full turns. */
  readonly turns: number
  /** Length of fill in each band, by its index; -1 for the centre. */
  readonly stitchedMm: ReadonlyMap<number, number>
}

const CHORD = 0.05
/** 60 degrees. Common practice, no source. */
const USUAL_SECTOR = Math.PI / 3

/** The lines as chains of chords, within 0.05 mm: what overlap, moves and gaps are measured on. */
export const chordsOf = (lines: readonly Line[]): Polyline[] =>
  lines.map((line) => polylineOf(chordPoints(line)))

/**
 * Measures the lines.
 *
 * @param sector  how wide the comfortable directions of the line spread, radians
 * @returns their length, what of it is travel or lies on an earlier part, how often the quilt is moved and how
 *   much it is turned
 */
export function measureLines(
  lines: readonly Line[],
  {
    reach,
    sector = USUAL_SECTOR,
    chords = chordsOf(lines),
  }: { reach: Reach; sector?: number; chords?: readonly Polyline[] },
): LineFigures {
  const stitchedMm = new Map<number, number>()
  let [lengthMm, travelMm] = [0, 0]
  for (const { parts } of lines) {
    for (const { kind, band, stroke } of parts) {
      const length = strokeLength(stroke)
      lengthMm += length
      if (kind === 'travel') travelMm += length
      if (kind === 'fill' && band !== undefined) stitchedMm.set(band, (stitchedMm.get(band) ?? 0) + length)
    }
  }
  const overlaps = measureOverlap(chords)
  return {
    lengthMm,
    travelMm,
    overlapMm: overlaps.lengthMm,
    overlaps: overlaps.stretches,
    repositions: countRepositions(chords, { width: reach[0], height: reach[1] }),
    turns: sumTurning(chords, sector),
    stitchedMm,
  }
}

function chordPoints(line: Line): Point[] {
  const points: Point[] = line.parts[0] ? [line.parts[0].stroke.start] : []
  for (const { stroke } of line.parts)
    eachSegment(stroke, (from, segment) => flattenSegment(from, segment, CHORD, points))
  return points
}
