import type { Point } from '../../geometry/point.ts'
import { flattenStroke, strokeLength } from '../../geometry/stroke.ts'
import type { ThreadedQuilt } from '../../pipeline.ts'
import type { Line, LinePart } from '../../stitch/line.ts'
import type { Scene, SceneLine, ScenePart } from './messages.ts'

/** How far chords may stray from the curves, mm: a line seen closely, and one seen from afar. */
const FINE = 0.05
const COARSE = 0.4

/** The quilt and its line as what a picture is drawn from. */
export function sceneOf({ plan, quilt, drawing }: Pick<ThreadedQuilt, 'plan' | 'quilt' | 'drawing'>): Scene {
  const parts: ScenePart[] = []
  const lines: SceneLine[] = []
  let along = 0
  drawing.lines.forEach((line, thread) => {
    const laid = layLine(line, { thread, along })
    parts.push(...laid.parts)
    lines.push(laid.line)
    along = laid.along
  })
  const { bindingFabric } = plan
  return { quilt, bindingFabric, lines, parts, areaCount: drawing.areaCount, lengthMm: along }
}

interface Begin {
  readonly thread: number
  readonly along: number
}

function layLine(
  line: Line,
  { thread, along }: Begin,
): { line: SceneLine; parts: ScenePart[]; along: number } {
  const fine = new ChordWriter(along)
  const coarse = new ChordWriter(along)
  let at = along
  const parts = line.parts.map((part): ScenePart => {
    const length = strokeLength(part.stroke)
    const begin = at
    at += length
    const { kind, band, area, reason } = part
    return {
      kind,
      band,
      area,
      reason,
      thread,
      fine: fine.add(part, { tolerance: FINE, to: at }),
      coarse: coarse.add(part, { tolerance: COARSE, to: at }),
      along: [begin, at],
    }
  })
  const [finer, coarser] = [fine.done(), coarse.done()]
  const chords = { fine: finer.xy, fineAlong: finer.along, coarse: coarser.xy, coarseAlong: coarser.along }
  return { line: { colour: line.thread, ...chords }, parts, along: at }
}

/** Collects the chords of one line, and how far along the work each point lies. */
class ChordWriter {
  readonly #xy: number[] = []
  readonly #along: number[] = []

  constructor(readonly begin: number) {}

  /** Adds a part that ends `to` mm along the work. @returns the indices of its first and last point */
  add({ stroke }: LinePart, { tolerance, to }: { tolerance: number; to: number }): [number, number] {
    const points = flattenStroke(stroke, tolerance)
    if (this.#along.length === 0) this.#push(points[0]!, this.begin)
    const first = this.#along.length - 1
    const from = this.#along[first]!
    const steps = chordLengths(points)
    const total = steps.at(-1) ?? 0
    for (let i = 1; i < points.length; i++)
      this.#push(points[i]!, from + (total > 0 ? (steps[i]! / total) * (to - from) : 0))
    return [first, this.#along.length - 1]
  }

  #push([x, y]: Point, along: number): void {
    this.#xy.push(x, y)
    this.#along.push(along)
  }

  done(): { xy: Float32Array; along: Float32Array } {
    return { xy: Float32Array.from(this.#xy), along: Float32Array.from(this.#along) }
  }
}

function chordLengths(points: readonly Point[]): number[] {
  let sum = 0
  return points.map((p, i) => {
    const before = points[i - 1]
    if (before) sum += Math.hypot(p[0] - before[0], p[1] - before[1])
    return sum
  })
}
