import type { Point } from '../../geometry/point.ts'
import { flattenSegment } from '../../geometry/segment.ts'
import { type Stroke, strokeLength } from '../../geometry/stroke.ts'
import type { FilledQuilt, ThreadedQuilt } from '../../pipeline.ts'
import type { Line, LinePart } from '../../stitch/line.ts'
import type { Chain, Scene, SceneLine, ScenePart } from './messages.ts'

/** How far chords may stray from the curves, mm: a line seen from afar, and one seen closely. */
const COARSE = 0.4
const FINE = 0.05

/** The quilt and its line as what a picture is drawn from. */
export function sceneOf({ plan, quilt, drawing }: Pick<ThreadedQuilt, 'plan' | 'quilt' | 'drawing'>): Scene {
  const parts: ScenePart[] = []
  const lines: SceneLine[] = []
  let along = 0
  drawing.lines.forEach((line, thread) => {
    const chords = new ChordWriter(COARSE)
    for (const part of line.parts) {
      const begin = along
      along += strokeLength(part.stroke)
      const points = chords.add(part, [begin, along])
      const { kind, band, area, reason } = part
      parts.push({ kind, band, area, reason, thread, points, along: [begin, along] })
    }
    lines.push({ colour: line.thread, ...chords.done() })
  })
  const { bindingFabric } = plan
  return { quilt, bindingFabric, lines, parts, areaCount: drawing.areaCount, lengthMm: along }
}

/** The fillers as they lie in their cloth, before the way through them is found. */
export function previewOf({ plan, quilt, pieces }: FilledQuilt): Scene {
  const chords = new ChordWriter(COARSE)
  for (const { stroke } of pieces.pieces) chords.addAlone(stroke)
  const lines = [{ colour: plan.thread.colour, ...chords.done() }]
  return { quilt, bindingFabric: plan.bindingFabric, lines, parts: [], areaCount: 0, lengthMm: 0 }
}

/** The lines of a scene as fine as they are looked at closely. */
export function closeUpOf(lines: readonly Line[], { parts }: Scene): Chain[] {
  let index = 0
  return lines.map((line) => {
    const chords = new ChordWriter(FINE)
    for (const part of line.parts) chords.add(part, parts[index++]!.along)
    return chords.done()
  })
}

const NOWHERE: Point = [Number.NaN, Number.NaN]

/** Collects the chords of one line, and how far along the work each point lies. */
class ChordWriter {
  readonly #xy: number[] = []
  readonly #along: number[] = []

  constructor(readonly tolerance: number) {}

  /** Adds a part that lies `begin` to `end` mm along the work. @returns the indices of its first and last point */
  add({ stroke }: LinePart, [begin, end]: readonly [number, number]): [number, number] {
    const points = this.#flatten(stroke)
    if (this.#along.length === 0) this.#push(stroke.start, begin)
    const first = this.#along.length - 1
    const scale = (end - begin) / Math.max(chainLength(points), 1e-9)
    let along = begin
    for (let i = 1; i < points.length; i++) {
      along += scale * apart(points[i - 1]!, points[i]!)
      this.#push(points[i]!, along)
    }
    return [first, this.#along.length - 1]
  }

  /** Adds a stroke by itself: where it does not go on from the one before, a place that is no number parts them. */
  addAlone(stroke: Stroke): void {
    const [x, y] = [this.#xy.at(-2), this.#xy.at(-1)]
    const goesOn = x === stroke.start[0] && y === stroke.start[1]
    if (x !== undefined && !goesOn) this.#push(NOWHERE, this.#along.length)
    const points = this.#flatten(stroke)
    for (let i = goesOn ? 1 : 0; i < points.length; i++) this.#push(points[i]!, this.#along.length)
  }

  #flatten(stroke: Stroke): Point[] {
    const points: Point[] = [stroke.start]
    let from = stroke.start
    for (const segment of stroke.segments) {
      flattenSegment(from, segment, this.tolerance, points)
      from = segment.to
    }
    return points
  }

  #push(point: Point, along: number): void {
    this.#xy.push(point[0], point[1])
    this.#along.push(along)
  }

  done(): Chain {
    return { xy: Float32Array.from(this.#xy), along: Float32Array.from(this.#along) }
  }
}

const apart = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1])

function chainLength(points: readonly Point[]): number {
  let sum = 0
  for (let i = 1; i < points.length; i++) sum += apart(points[i - 1]!, points[i]!)
  return sum
}
