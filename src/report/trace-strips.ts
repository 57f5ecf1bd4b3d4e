import type { StripMark, TraceStrip } from '../export/drawing.ts'
import { LABELS } from '../export/labels.ts'
import { type Affine, applyAffine, translation } from '../geometry/affine.ts'
import { distance, type Point } from '../geometry/point.ts'
import { endOf, joinStrokes, reverseStroke, type Stroke, transformStroke } from '../geometry/stroke.ts'
import type { Pieces, Stretch } from '../pieces/pieces.ts'
import { frameOf, type SideFrame } from '../pieces/side-frame.ts'
import type { Quilt, Side } from '../quilt/quilt.ts'

/** Pieces whose points lie this close together are traced from one strip, mm: less than a pencil line. */
const SAME = 0.05
/** Strokes that end this close together meet, mm. */
const MEET = 0.01

/**
 * What is traced again and again: for each band, every shape of straight run between two stations once, and every shape of
 * corner, with how often each lies on the quilt as it is and turned over. Bands filled patch by patch have none.
 */
export function traceStrips(quilt: Quilt, pieces: Pieces): TraceStrip[] {
  return quilt.bands.flatMap(({ index, sides }) => {
    const work = new BandStrips(sides, pieces)
    for (const stretch of pieces.stretches) if (stretch.band === index) work.add(stretch)
    return work.strips(index)
  })
}

/** One shape, and where on the quilt it lies. */
interface Shape {
  readonly piece: TraceStrip['piece']
  /** Of a run: counted from the middle of its side, from 1. */
  readonly fromMiddle: number | undefined
  readonly look: Look
  readonly sides: Set<number>
  times: number
  turned: number
}

/** How a piece looks in a frame of its own: the outside up, the corner to the right. */
interface Look {
  readonly strokes: readonly Stroke[]
  readonly outline: readonly Point[]
  readonly marks: readonly StripMark[]
}

class BandStrips {
  readonly #sides: readonly Side[]
  readonly #pieces: Pieces
  readonly #shapes: Shape[] = []
  readonly #atCorners = new Map<string, Stretch>()

  constructor(sides: readonly Side[], pieces: Pieces) {
    this.#sides = sides
    this.#pieces = pieces
  }

  add(stretch: Stretch): void {
    if (stretch.station > 0) this.#count(this.#run(stretch))
    else this.#atCorners.set(`${stretch.side} ${stretch.half}`, stretch)
  }

  /** The runs from the middle outward, then the corners. */
  strips(band: number): TraceStrip[] {
    this.#sides.forEach((_, side) => {
      this.#countCorner(side)
    })
    const runs = this.#shapes.filter((shape) => shape.piece === 'run')
    const isOne = new Set(runs.map((shape) => shape.fromMiddle)).size < 2
    const order = (shape: Shape) => (shape.piece === 'corner' ? Infinity : (shape.fromMiddle ?? 0))
    return [...this.#shapes]
      .sort((a, b) => (order(a) === order(b) ? 0 : order(a) - order(b)))
      .map(({ piece, fromMiddle, look, sides, times, turned }) => ({
        band,
        piece,
        ...look,
        times,
        ...(turned > 0 && { turned }),
        ...(fromMiddle !== undefined && !isOne && { fromMiddle }),
        ...(sides.size < this.#sides.length && { sides: [...sides].sort((a, b) => a - b) }),
      }))
  }

  /** The corner at the right end of a side: one piece if the line turns it, else two runs that end there. */
  #countCorner(side: number): void {
    const next = (side + 1) % this.#sides.length
    const before = this.#atCorners.get(`${side} right`)
    const after = this.#atCorners.get(`${next} left`)
    const ends = [before, after].map((stretch) => stretch && endOf(this.#stroke(stretch)))
    if (before && after && distance(ends[0]!, ends[1]!) < MEET) {
      const look = this.#corner(before, after)
      this.#count({ piece: 'corner', side, look, mirror: this.#corner(after, before), isTurned: false })
      return
    }
    for (const stretch of [before, after]) if (stretch) this.#count(this.#run(stretch))
  }

  #count({ piece, side, fromMiddle, look, mirror, isTurned }: Seen): void {
    const known = this.#shapes.find((shape) => shape.piece === piece && isSame(shape.look, look))
    const mirrored =
      mirror && this.#shapes.find((shape) => shape.piece === piece && isSame(shape.look, mirror))
    const shape = known ?? mirrored ?? { piece, fromMiddle, look, sides: new Set(), times: 0, turned: 0 }
    if (!known && !mirrored) this.#shapes.push(shape)
    if (isTurned || (!known && mirrored)) shape.turned++
    else shape.times++
    shape.sides.add(side)
  }

  /** The stretch's whole stroke, from the middle outward, as it lies on the quilt. */
  #stroke({ pieces: [first, end] }: Stretch): Stroke {
    return joinStrokes(this.#pieces.pieces.slice(first, end).map((piece) => piece.stroke))
  }

  #run(stretch: Stretch): Seen {
    const { side, half, from, to, atMiddle } = stretch
    const frame = frameOf(this.#sides[side]!, half)
    const shift = translation(-from.inner, 0)
    const place = (p: Point) => applyAffine(shift, p)
    const outline = [
      [from.inner, 0] as const,
      [to.inner, 0] as const,
      outerPoint(frame, to.outer),
      outerPoint(frame, from.outer),
    ].map(place)
    const look = {
      strokes: [transformStroke(transformStroke(this.#stroke(stretch), intoFrame(frame)), shift)],
      outline,
      marks: [startMark(outline[3]!, atMiddle)],
    }
    const fromMiddle = this.#numberOf(stretch)
    return { piece: 'run', side, fromMiddle, look, isTurned: half === 'left' }
  }

  /** How far from the middle of its side a stretch lies, from 1. */
  #numberOf({ band, side, half, station }: Stretch): number {
    const beside = this.#pieces.stretches.filter((s) => s.band === band && s.side === side && s.half === half)
    return Math.max(...beside.map((s) => s.station)) - station + 1
  }

  /** Both stretches at a corner in the frame of the first. */
  #corner(before: Stretch, after: Stretch): Look {
    const frame = frameOf(this.#sides[before.side]!, before.half)
    const other = frameOf(this.#sides[after.side]!, after.half)
    const into = intoFrame(frame)
    const fromOther = (p: Point) => applyAffine(into, applyAffine(other.place, [p[0], -p[1]]))
    const [start, end] = [this.#stroke(before), reverseStroke(this.#stroke(after))]
    const outline = [
      [before.from.inner, 0] as const,
      [before.to.inner, 0] as const,
      fromOther([after.from.inner, 0]),
      fromOther(outerPoint(other, after.from.outer)),
      outerPoint(frame, before.to.outer),
      outerPoint(frame, before.from.outer),
    ]
    return {
      strokes: [transformStroke(joinStrokes([start, end]), into)],
      outline,
      marks: [startMark(outline[5]!, before.atMiddle)],
    }
  }
}

interface Seen {
  readonly piece: TraceStrip['piece']
  readonly side: number
  readonly fromMiddle?: number | undefined
  readonly look: Look
  /** How it looks turned over, if that is how else it may be known. */
  readonly mirror?: Look
  readonly isTurned: boolean
}

const startMark = (at: Point, isMiddle: boolean): StripMark => ({
  at,
  name: isMiddle ? LABELS.sheets.middle : LABELS.sheets.toMiddle,
})

/** From the quilt into a side's frame with the outside up, so y runs against the frame's v. */
function intoFrame({ place: { a, b, c, d, e, f } }: SideFrame): Affine {
  return { a, b: -c, c: b, d: -d, e: -(a * e + b * f), f: c * e + d * f }
}

/** The place on the outer seam at distance `u` along it, in the frame with the outside up. */
function outerPoint({ width, lean }: SideFrame, u: number): Point {
  const [x, v] = lean ? lean([u, width]).to : [u, width]
  return [x, -v]
}

/** Whether two pieces can be traced from one another. */
function isSame(a: Look, b: Look): boolean {
  const [pointsA, pointsB] = [pointsOf(a), pointsOf(b)]
  return pointsA.length === pointsB.length && pointsA.every((p, i) => distance(p, pointsB[i]!) < SAME)
}

const pointsOf = ({ strokes, outline }: Look): Point[] => [
  ...outline,
  ...strokes.flatMap(({ start, segments }) => [start, ...segments.map((segment) => segment.to)]),
]
