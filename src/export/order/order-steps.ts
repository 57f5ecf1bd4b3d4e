import { distance, type Point } from '../../geometry/point.ts'
import { flattenStroke, polylineLength } from '../../geometry/stroke.ts'
import type { LinePart, PartKind } from '../../stitch/line.ts'
import type { Drawing } from '../drawing.ts'
import { stepWords } from './step-words.ts'

/** What is stitched without a change of band or purpose: from one crossing to the next. */
export interface OrderStep {
  readonly kind: PartKind
  readonly band: number | undefined
  readonly area: number
  /** Index of the line (thread start). */
  readonly thread: number
  readonly reason: string | undefined
  /** Along the edge of a region that is kept free of stitching: its index. */
  readonly region: number | undefined
  readonly points: readonly Point[]
  /** Whether the thread starts, or ends, with this step. */
  readonly begins: boolean
  readonly ends: boolean
}

/** A step and what to do, in words. */
export interface WordedStep extends OrderStep {
  readonly words: string
}

/** Flattening, mm on the quilt. */
const FLAT = 0.15

/** Shorter travel than this needs no words, mm. */
const TRIFLE = 3

/** The steps of all lines in the order of work, with their words. */
export function orderSteps(drawing: Drawing): WordedStep[] {
  const steps = drawing.lines.flatMap((line, thread) => stepsOfLine(line.parts, thread))
  return steps.map((step, i) => ({ ...step, words: stepWords(drawing, step, steps[i - 1]) }))
}

type Draft = { -readonly [K in keyof OrderStep]: OrderStep[K] } & { points: Point[] }

function stepsOfLine(parts: readonly LinePart[], thread: number): OrderStep[] {
  const steps: Draft[] = []
  for (const part of parts) {
    if (part.stroke.segments.length === 0 || part.kind === 'tie-off') continue
    const points = flattenStroke(part.stroke, FLAT)
    if (bridges(steps, part)) {
      const hop = steps.pop()!
      for (const p of hop.points.slice(1)) steps.at(-1)!.points.push(p)
    }
    const last = steps.at(-1)
    if (last && (goesOn(last, part) || isTrifle(part, points)))
      for (const p of points.slice(1)) last.points.push(p)
    else steps.push({ ...keyOf(part), thread, points, begins: false, ends: false })
  }
  if (steps.length > 0) {
    steps[0]!.begins = true
    steps.at(-1)!.ends = true
  }
  return steps
}

/** Travel between two pieces of one band's filling that is shorter than this belongs to the filling, mm. */
const HOP = 40

/** Whether the last step is such a hop from the same band to this part. */
function bridges(steps: readonly OrderStep[], part: LinePart): boolean {
  const [before, hop] = steps.slice(-2)
  if (!before || hop?.kind !== 'travel' || part.kind !== 'fill') return false
  return goesOn(before, part) && polylineLength(hop.points) < HOP
}

const goesOn = (step: OrderStep, part: LinePart): boolean =>
  step.kind === part.kind && step.band === part.band && step.area === part.area && step.region === part.region

const isTrifle = (part: LinePart, points: readonly Point[]): boolean =>
  part.kind === 'travel' && distance(points[0]!, points.at(-1)!) < TRIFLE && polylineLength(points) < TRIFLE

const keyOf = (part: LinePart) => ({
  kind: part.kind,
  band: part.band,
  area: part.area,
  reason: part.reason,
  region: part.region,
})
