import { type Affine, applyAffine, determinant, isSimilarity } from './affine.ts'
import { add, distance, lerp, norm, type Point, polar, scale, subtract, TOLERANCE, unit } from './point.ts'

/**
 * A piece of line that says where it goes; where it starts is where the one before it ended.
 * `sweep` is in radians, positive from the x axis towards the y axis (clockwise on the screen).
 */
export type Segment =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'arc'; readonly to: Point; readonly centre: Point; readonly sweep: number }
  | { readonly kind: 'cubic'; readonly to: Point; readonly c1: Point; readonly c2: Point }

export const line = (to: Point): Segment => ({ kind: 'line', to })
export const arc = (to: Point, centre: Point, sweep: number): Segment => ({ kind: 'arc', to, centre, sweep })
export const cubic = (c1: Point, c2: Point, to: Point): Segment => ({ kind: 'cubic', to, c1, c2 })

/**
 * The circular arc from `from` to `to` that rises by `rise` above its chord, to the left of travel as seen on the
 * screen (y down): for a chord to the right, a positive rise goes up the screen.
 *
 * @param from  chord start, mm
 * @param to    chord end, mm
 * @param rise  height above mid-chord, mm; negative rises to the right of travel
 * @returns an arc, or a line if |rise| is below TOLERANCE
 * @throws Error if the end points coincide
 * @example segmentLength([0, 0], arcFromChord([0, 0], [6, 0], 3)) // 9.42477796076938
 * @source radius = (chord²/4 + rise²) / (2 rise): intersecting chords, Euclid III.35
 */
export function arcFromChord(from: Point, to: Point, rise: number): Segment {
  const chord = distance(from, to)
  if (chord <= TOLERANCE) throw new Error(`zero chord: ${from} to ${to}`)
  if (Math.abs(rise) <= TOLERANCE) return line(to)
  const along = unit(subtract(to, from))
  const left: Point = [along[1], -along[0]]
  const radius = (chord * chord) / (8 * rise) + rise / 2
  const centre = add(lerp(from, to, 0.5), scale(left, rise - radius))
  return arc(to, centre, 4 * Math.atan((2 * rise) / chord))
}

/**
 * The circular arc that leaves `from` along `direction` and ends at `to`.
 *
 * @param direction  any length but zero
 * @returns an arc, or a line if `direction` points straight at `to`
 */
export function arcFromTangent(from: Point, direction: Point, to: Point): Segment {
  const chord = subtract(to, from)
  const d = unit(direction)
  const angle = Math.atan2(d[0] * chord[1] - d[1] * chord[0], d[0] * chord[0] + d[1] * chord[1])
  return arcFromChord(from, to, (norm(chord) / 2) * Math.tan(angle / 2))
}

/** The point at `t` in 0..1 of the segment that starts at `from`. */
export function pointAt(from: Point, segment: Segment, t: number): Point {
  switch (segment.kind) {
    case 'line':
      return lerp(from, segment.to, t)
    case 'arc': {
      if (t === 1) return segment.to
      const spoke = subtract(from, segment.centre)
      return polar(segment.centre, norm(spoke), Math.atan2(spoke[1], spoke[0]) + segment.sweep * t)
    }
    case 'cubic': {
      const s = 1 - t
      const [w0, w1, w2, w3] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t]
      const { c1, c2, to } = segment
      return [
        w0 * from[0] + w1 * c1[0] + w2 * c2[0] + w3 * to[0],
        w0 * from[1] + w1 * c1[1] + w2 * c2[1] + w3 * to[1],
      ]
    }
  }
}

/** The derivative with respect to `t` at `t`, mm; its direction is the direction of travel. */
export function derivativeAt(from: Point, segment: Segment, t: number): Point {
  switch (segment.kind) {
    case 'line':
      return subtract(segment.to, from)
    case 'arc': {
      const p = pointAt(from, segment, t)
      const spoke = subtract(p, segment.centre)
      return [-spoke[1] * segment.sweep, spoke[0] * segment.sweep]
    }
    case 'cubic': {
      const s = 1 - t
      const a = scale(subtract(segment.c1, from), 3 * s * s)
      const b = scale(subtract(segment.c2, segment.c1), 6 * s * t)
      const c = scale(subtract(segment.to, segment.c2), 3 * t * t)
      return add(add(a, b), c)
    }
  }
}

/** The unit direction of travel at `t`; where a cubic's handle has no length, of the nearest part that has one. */
export function directionAt(from: Point, segment: Segment, t: number): Point {
  const d = derivativeAt(from, segment, t)
  if (norm(d) > 1e-9) return unit(d)
  const [near, far] = t < 0.5 ? [t, t + 1e-4] : [t - 1e-4, t]
  return unit(subtract(pointAt(from, segment, far), pointAt(from, segment, near)))
}

/** The first part (0..t) and the rest (t..1) of a segment. */
export function splitAt(from: Point, segment: Segment, t: number): readonly [Segment, Segment] {
  const middle = pointAt(from, segment, t)
  switch (segment.kind) {
    case 'line':
      return [line(middle), segment]
    case 'arc':
      return [
        arc(middle, segment.centre, segment.sweep * t),
        arc(segment.to, segment.centre, segment.sweep * (1 - t)),
      ]
    case 'cubic': {
      const ab = lerp(from, segment.c1, t)
      const bc = lerp(segment.c1, segment.c2, t)
      const cd = lerp(segment.c2, segment.to, t)
      return [cubic(ab, lerp(ab, bc, t), middle), cubic(lerp(bc, cd, t), cd, segment.to)]
    }
  }
}

/** The same segment travelled from its end to its start. */
export function reverseSegment(from: Point, segment: Segment): Segment {
  switch (segment.kind) {
    case 'line':
      return line(from)
    case 'arc':
      return arc(from, segment.centre, -segment.sweep)
    case 'cubic':
      return cubic(segment.c2, segment.c1, from)
  }
}

/**
 * Cubics that follow an arc, each spanning at most a quarter turn.
 *
 * @source handle = 4/3 R tan(angle/4); a quarter turn strays by 2.7e-4 R at most
 */
export function arcToCubics(from: Point, segment: Segment & { kind: 'arc' }): Segment[] {
  const count = Math.max(1, Math.ceil(Math.abs(segment.sweep) / (Math.PI / 2) - 1e-9))
  const step = segment.sweep / count
  const handle = (4 / 3) * Math.tan(step / 4)
  const cubics: Segment[] = []
  let start = from
  for (let i = 1; i <= count; i++) {
    const end = pointAt(from, segment, i / count)
    const a = subtract(start, segment.centre)
    const b = subtract(end, segment.centre)
    cubics.push(
      cubic(
        [start[0] - a[1] * handle, start[1] + a[0] * handle],
        [end[0] + b[1] * handle, end[1] - b[0] * handle],
        end,
      ),
    )
    start = end
  }
  return cubics
}

/** Maps a segment. Arcs stay arcs under a similarity; otherwise they become cubics. */
export function transformSegment(from: Point, segment: Segment, m: Affine): Segment[] {
  const map = (p: Point) => applyAffine(m, p)
  switch (segment.kind) {
    case 'line':
      return [line(map(segment.to))]
    case 'arc': {
      if (!isSimilarity(m)) return arcToCubics(from, segment).map((c) => mapCubic(c, map))
      return [arc(map(segment.to), map(segment.centre), segment.sweep * Math.sign(determinant(m)))]
    }
    case 'cubic':
      return [mapCubic(segment, map)]
  }
}

function mapCubic(segment: Segment, map: (p: Point) => Point): Segment {
  if (segment.kind !== 'cubic') return line(map(segment.to))
  return cubic(map(segment.c1), map(segment.c2), map(segment.to))
}

/** Gauss-Legendre nodes and weights of order 8 on -1..1, node by node (Abramowitz & Stegun, Table 25.4). */
const NODES = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363] as const
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763] as const

/** Length of the segment from `from`, mm. Cubics by Gauss-Legendre, halved until two levels agree. */
export function segmentLength(from: Point, segment: Segment): number {
  switch (segment.kind) {
    case 'line':
      return distance(from, segment.to)
    case 'arc':
      return distance(from, segment.centre) * Math.abs(segment.sweep)
    case 'cubic':
      return new CubicSpeed(from, segment).length()
  }
}

/** How fast a cubic runs, as plain numbers: its length is asked for so often that points would cost more than sums. */
class CubicSpeed {
  readonly #ax: number
  readonly #ay: number
  readonly #bx: number
  readonly #by: number
  readonly #cx: number
  readonly #cy: number

  constructor(from: Point, { c1, c2, to }: Segment & { kind: 'cubic' }) {
    this.#ax = c1[0] - from[0]
    this.#ay = c1[1] - from[1]
    this.#bx = c2[0] - c1[0]
    this.#by = c2[1] - c1[1]
    this.#cx = to[0] - c2[0]
    this.#cy = to[1] - c2[1]
  }

  length(): number {
    return this.#halved([0, 1], this.#gauss(0, 1), 16)
  }

  #halved([t0, t1]: readonly [number, number], whole: number, depth: number): number {
    const middle = (t0 + t1) / 2
    const first = this.#gauss(t0, middle)
    const second = this.#gauss(middle, t1)
    if (depth === 0 || Math.abs(first + second - whole) <= 1e-9 * Math.max(1, whole)) return first + second
    return this.#halved([t0, middle], first, depth - 1) + this.#halved([middle, t1], second, depth - 1)
  }

  #gauss(t0: number, t1: number): number {
    const half = (t1 - t0) / 2
    const middle = (t0 + t1) / 2
    let sum = 0
    for (let i = 0; i < 4; i++) {
      sum += WEIGHTS[i]! * this.#at(middle - half * NODES[i]!)
      sum += WEIGHTS[i]! * this.#at(middle + half * NODES[i]!)
    }
    return sum * half
  }

  #at(t: number): number {
    const s = 1 - t
    const [a, b, c] = [3 * s * s, 6 * s * t, 3 * t * t]
    const x = this.#ax * a + this.#bx * b + this.#cx * c
    const y = this.#ay * a + this.#by * b + this.#cy * c
    return Math.sqrt(x * x + y * y)
  }
}

/**
 * Appends to `points` the ends of chords that stray from the segment by at most `tolerance`. The start is not
 * appended, the end is.
 *
 * @param tolerance  greatest distance between chord and curve, mm
 * @source arc: sagitta s = R - R cos(step/2); cubic: second differences, Wang 1984 (n = sqrt(6 M / 8 tolerance))
 */
export function flattenSegment(from: Point, segment: Segment, tolerance: number, points: Point[]): void {
  const count = chordCount(from, segment, tolerance)
  for (let i = 1; i < count; i++) points.push(pointAt(from, segment, i / count))
  points.push(segment.to)
}

function chordCount(from: Point, segment: Segment, tolerance: number): number {
  switch (segment.kind) {
    case 'line':
      return 1
    case 'arc': {
      const radius = distance(from, segment.centre)
      const step = 2 * Math.acos(Math.max(0, 1 - tolerance / Math.max(radius, tolerance)))
      return Math.max(1, Math.ceil(Math.abs(segment.sweep) / step))
    }
    case 'cubic': {
      const { c1, c2, to } = segment
      const first = Math.hypot(from[0] - 2 * c1[0] + c2[0], from[1] - 2 * c1[1] + c2[1])
      const second = Math.hypot(c1[0] - 2 * c2[0] + to[0], c1[1] - 2 * c2[1] + to[1])
      return Math.max(1, Math.ceil(Math.sqrt((0.75 * Math.max(first, second)) / tolerance)))
    }
  }
}
