import type { Point } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { type Drawn, defineMotif, type Strip, type Touch } from '../src/motif/contract.ts'
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
  draw: (strip) => drawStrands(strip),
})

/**
 * Along one strand, back along the second and along the third. At each end two strands cross on the end line, and there
 * the line turns, so that the cable runs on unbroken into the next stretch or into its own mirror image.
 */
function drawStrands(strip: Strip): Drawn {
  const isAcross = strip.from !== strip.to
  const count = PIECES * 2 * strip.repeats + (isAcross ? PIECES / 3 : (2 * PIECES) / 3)
  const third = ((isAcross ? 1 : -1) * (2 * PIECES)) / 3
  const sine = new Sine(strip, strip.length / count)
  for (let i = 0; i < count; i++) sine.go(i, i + 1, 0)
  for (let i = count; i > 0; i--) sine.go(i, i - 1, -third)
  for (let i = 0; i < count; i++) sine.go(i, i + 1, third)
  return { stroke: sine.line.build(), touches: sine.touches }
}

/** Follows strands: sines that differ by a shift, counted in pieces of 1 / PIECES half periods. */
class Sine {
  readonly line: StrokeBuilder
  readonly touches: Touch[]
  readonly #strip: Strip
  readonly #run: number

  constructor(strip: Strip, run: number) {
    this.#strip = strip
    this.#run = run
    this.line = new StrokeBuilder(this.#at(0, 0))
    this.touches = [{ edge: strip.from, after: 0 }]
  }

  /** A Hermite cubic from knot i to knot j, with the sine's place and slope at both. */
  go(i: number, j: number, shift: number): void {
    const third = (j - i) / 3
    const [a, b] = [this.#slope(i + shift), this.#slope(j + shift)]
    const [from, to] = [this.#at(i, shift), this.#at(j, shift)]
    const along = this.#run * third
    this.line.cubicTo([from[0] + along, from[1] + a * third], [to[0] - along, to[1] - b * third], to)
    if ((j + shift) % PIECES === 0) this.#touch(j + shift)
  }

  #at(i: number, shift: number): Point {
    const { from, width } = this.#strip
    const height = (width / 2) * (1 - Math.cos((Math.PI * (i + shift)) / PIECES))
    return [this.#run * i, from === 'inner' ? height : width - height]
  }

  #slope(knot: number): number {
    const { from, width } = this.#strip
    const sign = from === 'inner' ? 1 : -1
    return ((sign * width * Math.PI) / (2 * PIECES)) * Math.sin((Math.PI * knot) / PIECES)
  }

  #touch(knot: number): void {
    const isNear = knot % (2 * PIECES) === 0
    const edge = isNear === (this.#strip.from === 'inner') ? 'inner' : 'outer'
    this.touches.push({ edge, after: this.line.count })
  }
}
