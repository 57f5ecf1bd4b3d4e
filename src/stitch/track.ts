import { dot, norm, type Point, TOLERANCE } from '../geometry/point.ts'
import { derivativeAt, directionAt, pointAt, type Segment, segmentLength } from '../geometry/segment.ts'
import { eachSegment, flattenStroke } from '../geometry/stroke.ts'
import type { Line } from './line.ts'

/** How far the chords of a cubic's pieces may stray from it, mm: sets how many pieces it is cut into. */
const PIECE_TOLERANCE = 0.01

/**
 * A line cut into pieces of nearly constant curvature, with the distance along the line at each piece's end. All
 * arrays have one entry a piece, but `froms` and `segments`, which hold the segment that each piece is a part of.
 */
export interface Track {
  readonly froms: readonly Point[]
  readonly segments: readonly Segment[]
  /** Where the piece begins and ends on its segment, 0..1. */
  readonly t0: readonly number[]
  readonly t1: readonly number[]
  /** Distance along the line at the piece's end, mm. */
  readonly ends: readonly number[]
  /** 1 / radius, 1/mm; of a chain of short straight pieces, that of the curve it follows. */
  readonly curvatures: readonly number[]
  /** How far the direction jumps where the piece begins, radians; 0 at the line's start. */
  readonly jumps: readonly number[]
  /** Index of the part that the piece lies in. */
  readonly parts: readonly number[]
  /** Length of the line, mm. */
  readonly lengthMm: number
}

/** A Track while it is being written. */
type Draft = { -readonly [K in keyof Track]: Track[K] extends readonly (infer T)[] ? T[] : Track[K] }

/**
 * Cuts a line into pieces. Segments shorter than TOLERANCE, such as those of a crossing, are left out.
 *
 * @param cuspAngle  joints that jump by more than this are corners, not parts of a curve, radians
 */
export function layTrack(line: Line, cuspAngle: number): Track {
  const draft: Draft = {
    froms: [],
    segments: [],
    t0: [],
    t1: [],
    ends: [],
    curvatures: [],
    jumps: [],
    parts: [],
    lengthMm: 0,
  }
  let heading: Point | undefined
  line.parts.forEach((part, index) => {
    eachSegment(part.stroke, (from, segment) => {
      if (segmentLength(from, segment) <= TOLERANCE) return
      const jump = heading ? angleBetween(heading, directionAt(from, segment, 0)) : 0
      addSegment(draft, { from, segment, part: index, jump })
      heading = directionAt(from, segment, 1)
    })
  })
  followJoints(draft, cuspAngle)
  return draft
}

/** The angle between two directions, 0..pi. */
export function angleBetween(a: Point, b: Point): number {
  return Math.abs(Math.atan2(a[0] * b[1] - a[1] * b[0], dot(a, b)))
}

interface Addition {
  readonly from: Point
  readonly segment: Segment
  readonly part: number
  readonly jump: number
}

function addSegment(draft: Draft, { from, segment, part, jump }: Addition): void {
  const count = segment.kind === 'cubic' ? piecesOf(from, segment) : 1
  for (let i = 0; i < count; i++) {
    const [t0, t1] = [i / count, (i + 1) / count]
    const length = pieceLength(from, segment, [t0, t1])
    draft.lengthMm += length
    draft.froms.push(from)
    draft.segments.push(segment)
    draft.t0.push(t0)
    draft.t1.push(t1)
    draft.ends.push(draft.lengthMm)
    draft.curvatures.push(curvatureOf(from, segment, [t0, t1, length]))
    draft.jumps.push(i === 0 ? jump : 0)
    draft.parts.push(part)
  }
}

const piecesOf = (from: Point, segment: Segment): number =>
  flattenStroke({ start: from, segments: [segment] }, PIECE_TOLERANCE).length - 1

/** Simpson's rule over the speed of a short piece of a cubic; exact for the others. */
function pieceLength(from: Point, segment: Segment, [t0, t1]: readonly [number, number]): number {
  if (segment.kind !== 'cubic') return segmentLength(from, segment)
  const speed = (t: number) => norm(derivativeAt(from, segment, t))
  return ((speed(t0) + 4 * speed((t0 + t1) / 2) + speed(t1)) * (t1 - t0)) / 6
}

function curvatureOf(
  from: Point,
  segment: Segment,
  [t0, t1, length]: readonly [number, number, number],
): number {
  if (segment.kind === 'line') return 0
  if (segment.kind === 'arc') return Math.abs(segment.sweep) / length
  const turn = angleBetween(directionAt(from, segment, t0), directionAt(from, segment, t1))
  return length > 0 ? turn / length : 0
}

/** Gives chains of straight pieces the curvature of the curve that they follow. */
function followJoints(draft: Draft, cuspAngle: number): void {
  const length = (i: number) => draft.ends[i]! - (draft.ends[i - 1] ?? 0)
  for (let i = 1; i < draft.ends.length; i++) {
    const jump = draft.jumps[i]!
    if (jump === 0 || jump > cuspAngle) continue
    const curvature = (2 * jump) / (length(i - 1) + length(i))
    draft.curvatures[i - 1] = Math.max(draft.curvatures[i - 1]!, curvature)
    draft.curvatures[i] = Math.max(draft.curvatures[i]!, curvature)
  }
}

/** Distance along the line at which piece `i` begins, mm. */
export const startOfPiece = (track: Track, i: number): number => (i > 0 ? track.ends[i - 1]! : 0)

/** The point at `along` mm, which lies in piece `i`. */
export function pointOnPiece(track: Track, i: number, along: number): Point {
  const start = startOfPiece(track, i)
  const share = (along - start) / Math.max(track.ends[i]! - start, Number.MIN_VALUE)
  const [t0, t1] = [track.t0[i]!, track.t1[i]!]
  return pointAt(track.froms[i]!, track.segments[i]!, t0 + (t1 - t0) * Math.min(1, Math.max(0, share)))
}

/** The piece that `along` mm lies in; at a joint, the one that ends there. */
export function pieceAt(track: Track, along: number): number {
  let [low, high] = [0, track.ends.length - 1]
  while (low < high) {
    const middle = (low + high) >> 1
    if (track.ends[middle]! >= along) high = middle
    else low = middle + 1
  }
  return low
}
