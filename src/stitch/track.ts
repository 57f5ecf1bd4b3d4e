import { dot, type Point, TOLERANCE } from '../geometry/point.ts'
import { directionAt, pointAt, type Segment, segmentLength } from '../geometry/segment.ts'
import { eachSegment } from '../geometry/stroke.ts'
import type { Line } from './line.ts'

/** How far the chords of a cubic's pieces may stray from it, mm: sets how many pieces it is cut into. */
const PIECE_TOLERANCE = 0.1

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
  /** How much faster the curve runs at the piece's end than at its start, from -1 to 1; 0 where it runs evenly. */
  readonly skews: readonly number[]
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
    skews: [],
    curvatures: [],
    jumps: [],
    parts: [],
    lengthMm: 0,
  }
  let heading: Point | undefined
  line.parts.forEach((part, index) => {
    eachSegment(part.stroke, (from, segment) => {
      const cuts = segment.kind === 'cubic' ? cutCubic(from, segment) : [wholeOf(from, segment)]
      if (cuts.reduce((sum, { length }) => sum + length, 0) <= TOLERANCE) return
      const jump = heading ? angleBetween(heading, directionAt(from, segment, 0)) : 0
      addSegment(draft, { from, segment, cuts, part: index, jump })
      heading = directionAt(from, segment, 1)
    })
  })
  followJoints(draft, cuspAngle)
  return draft
}

/** The angle between two directions, 0..pi. */
function angleBetween(a: Point, b: Point): number {
  return Math.abs(Math.atan2(a[0] * b[1] - a[1] * b[0], dot(a, b)))
}

interface Addition {
  readonly from: Point
  readonly segment: Segment
  readonly cuts: readonly Cut[]
  readonly part: number
  readonly jump: number
}

function addSegment(draft: Draft, { from, segment, cuts, part, jump }: Addition): void {
  cuts.forEach(({ length, curvature, skew }, i) => {
    draft.lengthMm += length
    draft.froms.push(from)
    draft.segments.push(segment)
    draft.t0.push(i / cuts.length)
    draft.t1.push((i + 1) / cuts.length)
    draft.ends.push(draft.lengthMm)
    draft.skews.push(skew)
    draft.curvatures.push(curvature)
    draft.jumps.push(i === 0 ? jump : 0)
    draft.parts.push(part)
  })
}

interface Cut {
  readonly length: number
  readonly curvature: number
  readonly skew: number
}

function wholeOf(from: Point, segment: Segment): Cut {
  const length = segmentLength(from, segment)
  return { length, curvature: segment.kind === 'arc' ? Math.abs(segment.sweep) / length : 0, skew: 0 }
}

/**
 * Pieces of a cubic at even steps of t.
 *
 * @source length by Simpson's rule over the speed
 */
function cutCubic(from: Point, cubic: Cubic): Cut[] {
  const count = piecesOf(from, cubic)
  const velocity = new Velocity(from, cubic)
  const cuts: Cut[] = []
  let before = velocity.at(0)
  for (let i = 1; i <= count; i++) {
    const middle = velocity.at((i - 0.5) / count)
    const after = velocity.at(i / count)
    const [slow, fast] = [sizeOf(before), sizeOf(after)]
    const length = (slow + 4 * sizeOf(middle) + fast) / (6 * count)
    const turn = angleBetween(before, middle) + angleBetween(middle, after)
    const skew = (fast - slow) / Math.max(fast + slow, Number.MIN_VALUE)
    cuts.push({ length, curvature: length > 0 ? turn / length : 0, skew })
    before = after
  }
  return cuts
}

/** The derivative of a cubic as a polynomial in t: the same as derivativeAt, for many t. */
class Velocity {
  readonly #x: Quadratic
  readonly #y: Quadratic

  constructor(from: Point, { c1, c2, to }: Cubic) {
    this.#x = derivativeOf([from[0], c1[0], c2[0], to[0]])
    this.#y = derivativeOf([from[1], c1[1], c2[1], to[1]])
  }

  at(t: number): Point {
    const [x, y] = [this.#x, this.#y]
    return [x.a + (x.b + x.c * t) * t, y.a + (y.b + y.c * t) * t]
  }
}

interface Quadratic {
  readonly a: number
  readonly b: number
  readonly c: number
}

/** @source Bernstein form to powers of t: 3 (q - p) + 6 (r - 2q + p) t + 3 (s - 3r + 3q - p) t² */
const derivativeOf = ([p, q, r, s]: readonly [number, number, number, number]): Quadratic => ({
  a: 3 * (q - p),
  b: 6 * (r - 2 * q + p),
  c: 3 * (s - 3 * r + 3 * q - p),
})

type Cubic = Segment & { readonly kind: 'cubic' }

/** As many as keep their chords to the tolerance. @source second differences, Wang 1984 (see flattenSegment) */
function piecesOf(from: Point, { c1, c2, to }: Cubic): number {
  const first: Point = [from[0] - 2 * c1[0] + c2[0], from[1] - 2 * c1[1] + c2[1]]
  const second: Point = [c1[0] - 2 * c2[0] + to[0], c1[1] - 2 * c2[1] + to[1]]
  const bend = Math.max(sizeOf(first), sizeOf(second))
  return Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / PIECE_TOLERANCE)))
}

/** Length of a vector; much faster than Math.hypot, and no coordinate here comes near overflow. */
const sizeOf = (v: Point): number => Math.sqrt(v[0] * v[0] + v[1] * v[1])

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

/** When a share of a piece's length is reached, if the speed grows evenly: the root of (1 - skew) t + skew t² = share. */
function timeAt(share: number, skew: number): number {
  if (share === 0 || Math.abs(skew) < 1e-6) return share
  const rest = 1 - skew
  return (2 * share) / (rest + Math.sqrt(rest * rest + 4 * skew * share))
}

/** The point at `along` mm, which lies in piece `i`. */
export function pointOnPiece(track: Track, i: number, along: number): Point {
  const start = startOfPiece(track, i)
  const share = (along - start) / Math.max(track.ends[i]! - start, Number.MIN_VALUE)
  const [t0, t1] = [track.t0[i]!, track.t1[i]!]
  const t = timeAt(Math.min(1, Math.max(0, share)), track.skews[i]!)
  return pointAt(track.froms[i]!, track.segments[i]!, t0 + (t1 - t0) * t)
}
