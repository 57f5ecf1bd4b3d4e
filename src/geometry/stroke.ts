import type { Affine } from './affine.ts'
import { applyAffine } from './affine.ts'
import { distance, type Point, TOLERANCE } from './point.ts'
import {
  arcFromChord,
  arcFromTangent,
  cubic,
  flattenSegment,
  line,
  reverseSegment,
  type Segment,
  segmentLength,
  transformSegment,
} from './segment.ts'

/** One unbroken line: a start and segments that each say where they go. A gap cannot be written down. */
export interface Stroke {
  readonly start: Point
  readonly segments: readonly Segment[]
}

/** An upright rectangle, mm. */
export interface Box {
  readonly minX: number
  readonly minY: number
  readonly maxX: number
  readonly maxY: number
}

export const endOf = (stroke: Stroke): Point => stroke.segments.at(-1)?.to ?? stroke.start

/** Calls `visit` with each segment and where it starts. */
export function eachSegment(
  stroke: Stroke,
  visit: (from: Point, segment: Segment, index: number) => void,
): void {
  let from = stroke.start
  stroke.segments.forEach((segment, index) => {
    visit(from, segment, index)
    from = segment.to
  })
}

/** Lengths that were asked for: a stroke never changes, and the same ones are measured again and again. */
const LENGTHS = new WeakMap<Stroke, number>()

/** Length of the stroke, mm. */
export function strokeLength(stroke: Stroke): number {
  const known = LENGTHS.get(stroke)
  if (known !== undefined) return known
  let sum = 0
  eachSegment(stroke, (from, segment) => {
    sum += segmentLength(from, segment)
  })
  LENGTHS.set(stroke, sum)
  return sum
}

/** The stroke travelled from its end to its start. */
export function reverseStroke(stroke: Stroke): Stroke {
  const segments: Segment[] = []
  eachSegment(stroke, (from, segment) => {
    segments.push(reverseSegment(from, segment))
  })
  return { start: endOf(stroke), segments: segments.reverse() }
}

/** The stroke under an affine map. */
export function transformStroke(stroke: Stroke, m: Affine): Stroke {
  const segments: Segment[] = []
  eachSegment(stroke, (from, segment) => {
    if (segment.kind !== 'cubic') segments.push(...transformSegment(from, segment, m))
    else
      segments.push(cubic(applyAffine(m, segment.c1), applyAffine(m, segment.c2), applyAffine(m, segment.to)))
  })
  return { start: applyAffine(m, stroke.start), segments }
}

/**
 * Strokes one after the other.
 *
 * @throws Error if one does not start where the one before it ended
 */
export function joinStrokes(strokes: readonly Stroke[]): Stroke {
  const [first] = strokes
  if (!first) throw new Error('no strokes to join')
  const segments: Segment[] = []
  let end = first.start
  for (const stroke of strokes) {
    if (distance(end, stroke.start) > 1e-3) throw new Error(`strokes do not meet: ${end} and ${stroke.start}`)
    for (const segment of stroke.segments) segments.push(segment)
    end = endOf(stroke)
  }
  return { start: first.start, segments }
}

/**
 * The stroke as points whose chords stray from it by at most `tolerance`.
 *
 * @param tolerance  mm
 */
export function flattenStroke(stroke: Stroke, tolerance: number): Point[] {
  const points: Point[] = [stroke.start]
  eachSegment(stroke, (from, segment) => flattenSegment(from, segment, tolerance, points))
  return points
}

/** Length of the chain of chords through `points`, mm. */
export function polylineLength(points: readonly Point[]): number {
  let sum = 0
  for (let i = 1; i < points.length; i++) sum += distance(points[i - 1]!, points[i]!)
  return sum
}

/** The box round `points`. @throws Error if there are none */
export function boundsOf(points: Iterable<Point>): Box {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const [x, y] of points) {
    if (x < minX) minX = x
    if (x > maxX) maxX = x
    if (y < minY) minY = y
    if (y > maxY) maxY = y
  }
  if (minX > maxX) throw new Error('no points, no bounds')
  return { minX, minY, maxX, maxY }
}

/** The straight stroke through `points`. */
export function strokeThrough(points: readonly Point[]): Stroke {
  const [start, ...rest] = points
  if (!start) throw new Error('a stroke needs a start')
  return { start, segments: rest.map(line) }
}

/** Builds a stroke by saying, one after the other, where the needle goes. Zero-length moves are left out. */
export class StrokeBuilder {
  readonly #start: Point
  readonly #segments: Segment[] = []
  #at: Point

  constructor(start: Point) {
    this.#start = start
    this.#at = start
  }

  /** Where the needle is. */
  get at(): Point {
    return this.#at
  }

  /** How many segments there are so far: the number that a touch refers to. */
  get count(): number {
    return this.#segments.length
  }

  lineTo(to: Point): this {
    return distance(this.#at, to) > TOLERANCE ? this.push(line(to)) : this
  }

  /** A circular arc that rises by `rise` to the left of travel (see arcFromChord). */
  arcTo(to: Point, rise: number): this {
    return distance(this.#at, to) > TOLERANCE ? this.push(arcFromChord(this.#at, to, rise)) : this
  }

  /** A circular arc that leaves along `direction`. */
  arcAlong(direction: Point, to: Point): this {
    return distance(this.#at, to) > TOLERANCE ? this.push(arcFromTangent(this.#at, direction, to)) : this
  }

  cubicTo(c1: Point, c2: Point, to: Point): this {
    return this.push(cubic(c1, c2, to))
  }

  push(segment: Segment): this {
    this.#segments.push(segment)
    this.#at = segment.to
    return this
  }

  /** Follows `stroke`, which must start where the needle is. */
  follow(stroke: Stroke): this {
    if (distance(this.at, stroke.start) > 1e-3)
      throw new Error(`not at the start: ${this.at} and ${stroke.start}`)
    for (const segment of stroke.segments) this.push(segment)
    return this
  }

  build(): Stroke {
    return { start: this.#start, segments: [...this.#segments] }
  }
}
