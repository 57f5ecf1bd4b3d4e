import type { Point } from '../geometry/point.ts'
import type { StitchEnds } from './needles.ts'
import { pointOnPiece, startOfPiece, type Track } from './track.ts'

/** Where a piece of nearly constant curvature lies farthest from its chord, as a share of it. */
export const MIDDLE = 0.5

/** A place of the line, mm along it, and its distance from a chord, mm. */
export interface Far {
  readonly along: number
  readonly error: number
}

/** Up to so much of the tolerance in a few places, a stitch is within it everywhere. */
export const SURE = 0.85

/** The point of the line within a stitch that lies farthest from its chord: looked for closely where it matters. */
export function farthest(track: Track, ends: StitchEnds, tolerance: number): Far {
  const [a, b] = ends
  if (a.piece === b.piece) {
    const { kind } = track.segments[a.piece]!
    if (kind === 'line') return { along: a.along, error: 0 }
    if (kind === 'arc') {
      const error = sagitta(track.curvatures[a.piece]!, b.along - a.along)
      return { along: (a.along + b.along) / 2, error }
    }
  }
  const far = farthestOf(track, ends, ROUGH)
  return far.error <= SURE * tolerance ? far : farthestOf(track, ends, FINE)
}

function farthestOf(track: Track, [a, b]: StitchEnds, places: typeof ROUGH | typeof FINE): Far {
  let at = a.along
  let worst = 0
  for (let piece = a.piece; piece <= b.piece; piece++) {
    const from = Math.max(a.along, startOfPiece(track, piece))
    const to = Math.min(b.along, track.ends[piece]!)
    if (to <= from) continue
    for (const share of places[track.segments[piece]!.kind]) {
      const along = from + (to - from) * share
      const error = offChord(pointOnPiece(track, piece, along), a.point, b.point)
      if (error <= worst) continue
      at = along
      worst = error
    }
  }
  return { along: at, error: worst }
}

/** The distance from `p` to the chord from `a` to `b`, mm. */
export function offChord(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  const squared = dx * dx + dy * dy
  const along = squared > 0 ? ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / squared : 0
  const t = Math.min(1, Math.max(0, along))
  const x = a[0] + dx * t - p[0]
  const y = a[1] + dy * t - p[1]
  return Math.sqrt(x * x + y * y)
}

/** @source sagitta of an arc: R (1 - cos(arc / 2R)), Euclid III.35 */
export const sagitta = (curvature: number, arc: number): number =>
  (1 - Math.cos(Math.min(Math.PI, (curvature * arc) / 2))) / curvature

/** Where to look on a piece for the point farthest from a chord: joints, and the inside of what is curved. */
const ROUGH = { line: [1], cubic: [MIDDLE, 1], arc: [MIDDLE, 1] } as const
const EIGHTHS = [1, 2, 3, 4, 5, 6, 7, 8].map((i) => i / 8)
const FINE = { line: [1], cubic: EIGHTHS, arc: EIGHTHS }
