import { distance, dot, type Point, scale, subtract, unit } from '../geometry/point.ts'
import { cubic, type Segment } from '../geometry/segment.ts'
import { type Stroke, StrokeBuilder, transformStroke } from '../geometry/stroke.ts'
import type { Drawn, Edge, MitreStrip, Strip } from './contract.ts'

/** A place on a line and the direction in which it is passed, as an angle in radians from u towards v. */
export interface Post {
  readonly at: Point
  readonly heading: number
}

/** A strip seen from the edge on which its stroke starts: y = 0 there, y = width on the other edge. */
export interface FreeStrip {
  /** Up to the end line at half the width, mm. */
  readonly length: number
  readonly width: number
  readonly repeats: number
  /** How far the end line leans away from the start, x per y: 0 but at a mitre. */
  readonly lean: number
  /** Whether the stroke ends on the edge on which it starts. */
  readonly returns: boolean
  readonly seed: number
}

export function freeStrip(strip: Strip | MitreStrip): FreeStrip {
  const skew = 'skew' in strip ? strip.skew : 0
  return {
    length: strip.length + (skew * strip.width) / 2,
    width: strip.width,
    repeats: strip.repeats,
    lean: strip.from === 'inner' ? skew : -skew,
    returns: strip.from === strip.to,
    seed: strip.seed,
  }
}

/** Turns a stroke drawn in a `FreeStrip` into what the contract asks for: touches at its start and end alone. */
export function drawnFree(strip: { from: Edge; to: Edge; width: number }, stroke: Stroke): Drawn {
  const flip = { a: 1, b: 0, c: 0, d: -1, e: 0, f: strip.width }
  return {
    stroke: strip.from === 'inner' ? stroke : transformStroke(stroke, flip),
    touches: [
      { edge: strip.from, after: 0 },
      { edge: strip.to, after: stroke.segments.length },
    ],
  }
}

/** A line that is led from post to post, smooth at each. */
export class LedLine {
  readonly #line: StrokeBuilder
  #heading: number

  constructor({ at, heading }: Post) {
    this.#line = new StrokeBuilder(at)
    this.#heading = heading
  }

  get at(): Point {
    return this.#line.at
  }

  /** One cubic to the next post, round like an arc where the two headings allow it. */
  to(post: Post): this {
    this.#line.push(link({ at: this.at, heading: this.#heading }, post))
    this.#heading = post.heading
    return this
  }

  /** Follows segments that start here, along the heading, and end with `heading`. */
  along(segments: readonly Segment[], heading: number): this {
    for (const segment of segments) this.#line.push(segment)
    this.#heading = heading
    return this
  }

  build(): Stroke {
    return this.#line.build()
  }
}

const along = (heading: number, length: number): Point => [
  length * Math.cos(heading),
  length * Math.sin(heading),
]

/**
 * The cubic from one post to the next.
 *
 * @source a handle of chord / (3 cos²(lean / 2)) makes an arc of a circle where both leans are equal
 */
export function link(from: Post, to: Post): Segment {
  const chord = distance(from.at, to.at)
  const direction = unit(subtract(to.at, from.at))
  const handle = (heading: number) => {
    const cosine = Math.max(-0.5, dot(direction, along(heading, 1)))
    return (2 * chord) / (3 * (1 + cosine))
  }
  const [h0, h1] = [along(from.heading, handle(from.heading)), along(to.heading, handle(to.heading))]
  return cubic([from.at[0] + h0[0], from.at[1] + h0[1]], subtract(to.at, scale(h1, 1)), to.at)
}
