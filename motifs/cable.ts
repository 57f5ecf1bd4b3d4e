import { dot, type Point, scale, unit } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import type { Warp } from '../src/geometry/warp.ts'
import { cornerWarp } from '../src/motif/bend.ts'
import { type Drawn, defineMotif, type MitreStrip, type Strip, type Touch } from '../src/motif/contract.ts'
import { inches } from '../src/units.ts'

/** Cubics to half a period of a strand: as fine as a sine needs, and a multiple of three. */
const PIECES = 6

export default defineMotif({
  title: 'Cable',
  source: 'three sines a third of a period apart; common practice',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.8 }, min: inches(2), max: inches(24) },
  },
  closeness: 'repeat',
  suits: { min: inches(1.5), max: inches(6) },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { repeat }) => Math.min(Math.max(repeat, 1.5 * width), 6 * width),
  draw: (strip) =>
    drawStrands(strip, { length: strip.length, bend: ([u, v]) => ({ to: [u, v], du: [1, 0], dv: [0, 1] }) }),
  drawToMitre: (strip) => drawStrands(strip, mitreCourse(strip)),
})

/** Onto the mitre; `square` to it is the direction in which strands that cross on it run on into their mirror images. */
function mitreCourse({ length, width, skew }: MitreStrip): Course {
  const straight = length + (skew * width) / 2
  const stretch = {
    width,
    start: { inner: 0, outer: 0 },
    end: { inner: length, outer: length + skew * width },
  }
  return { length: straight, bend: cornerWarp(stretch, straight), square: unit([1, -skew]) }
}

/**
 * Along one strand, back along the second and along the third. At each end two strands cross on the end line, and there
 * the line turns, so that the cable runs on unbroken into the next stretch or into its own mirror image.
 */
function drawStrands(strip: Strip, course: Course): Drawn {
  const isAcross = strip.from !== strip.to
  const count = PIECES * 2 * strip.repeats + (isAcross ? PIECES / 3 : (2 * PIECES) / 3)
  const third = ((isAcross ? 1 : -1) * (2 * PIECES)) / 3
  const sine = new Sine(strip, { ...course, count, run: course.length / count })
  sine.follow(0)
  sine.followBack(-third)
  sine.follow(third)
  return { stroke: sine.line.build(), touches: sine.touches }
}

/** The length of a straight strip and how it is bent into its place. */
interface Course {
  /** mm */
  readonly length: number
  readonly bend: Warp
  /** The direction square to a mitre at its end. */
  readonly square?: Point
}

interface Knots extends Course {
  /** Pieces to a strand. */
  readonly count: number
  /** Length of a piece along the strip, mm. */
  readonly run: number
}

/** Where a strand is at a knot, and its derivative by the number of the knot. */
interface Knot {
  readonly at: Point
  readonly along: Point
}

/** Follows strands: sines that differ by a shift, counted in pieces of 1 / PIECES half periods. */
class Sine {
  readonly line: StrokeBuilder
  readonly touches: Touch[]
  readonly #strip: Strip
  readonly #course: Knots

  constructor(strip: Strip, course: Knots) {
    this.#strip = strip
    this.#course = course
    this.line = new StrokeBuilder(this.#knot(0, 0).at)
    this.touches = [{ edge: strip.from, after: 0 }]
  }

  /** From the start to the end along a strand. */
  follow(shift: number): void {
    const knots = this.#knots(shift)
    for (let k = 1; k < knots.length; k++) this.#go(knots[k - 1]!, knots[k]!, shift)
  }

  /** From the end to the start. */
  followBack(shift: number): void {
    const knots = this.#knots(shift)
    for (let k = knots.length - 1; k > 0; k--) this.#go(knots[k]!, knots[k - 1]!, shift)
  }

  /** A strand's knots: all; or, if it crosses a mitre, none between its last crest or trough and the mitre. */
  #knots(shift: number): number[] {
    const { count, square } = this.#course
    const last = square ? Math.floor((count + shift) / PIECES) * PIECES - shift : count
    const knots = Array.from({ length: last + 1 }, (_, i) => i)
    return last < count ? [...knots, count] : knots
  }

  /** A Hermite cubic from knot i to knot j, with the sine's place and slope at both. */
  #go(i: number, j: number, shift: number): void {
    const third = (j - i) / 3
    const [from, to] = [this.#knot(i, shift), this.#knot(j, shift)]
    this.line.cubicTo(this.#handle(from, third), this.#handle(to, -third), to.at)
    if ((j + shift) % PIECES === 0) this.#touch(j + shift)
  }

  #knot(i: number, shift: number): Knot {
    const { from, width } = this.#strip
    const { run, bend, count, square } = this.#course
    const phase = (Math.PI * (i + shift)) / PIECES
    const height = (width / 2) * (1 - Math.cos(phase))
    const rise = ((from === 'inner' ? 1 : -1) * width * Math.PI * Math.sin(phase)) / (2 * PIECES)
    const { to, du, dv } = bend([run * i, from === 'inner' ? height : width - height])
    const isCrossing = square && i === count && (i + shift) % PIECES !== 0
    const course = isCrossing ? scale(square, dot(square, du)) : du
    return { at: to, along: [run * course[0] + rise * dv[0], run * course[1] + rise * dv[1]] }
  }

  /** The end of a handle, kept in the band: beside a mitre long pieces would bulge out of it. */
  #handle({ at, along }: Knot, third: number): Point {
    const rise = along[1] * third
    const within = Math.min(Math.max(at[1] + rise, 0), this.#strip.width) - at[1]
    const k = Math.abs(rise - within) < 1e-9 ? third : (third * within) / rise
    return [at[0] + along[0] * k, at[1] + along[1] * k]
  }

  #touch(knot: number): void {
    const isNear = knot % (2 * PIECES) === 0
    const edge = isNear === (this.#strip.from === 'inner') ? 'inner' : 'outer'
    this.touches.push({ edge, after: this.line.count })
  }
}
