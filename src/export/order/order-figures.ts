import type { Point } from '../../geometry/point.ts'
import { type Box, boundsOf, polylineLength } from '../../geometry/stroke.ts'
import type { Drawing } from '../drawing.ts'
import { LABELS, longLengthText } from '../labels.ts'
import { orderSteps, type WordedStep } from './order-steps.ts'

/** One figure: what is done before, what comes now, and what to do. */
export interface OrderFigure {
  readonly title: string
  /** How much is stitched in it. */
  readonly summary: string
  /** What the picture shows of the quilt, mm. */
  readonly view: Box
  readonly done: readonly WordedStep[]
  readonly now: readonly WordedStep[]
}

/** More steps than this in one figure are shared between figures. */
const MOST_STEPS = 12

/** The figures in the order of work: one an area, more for an area of many steps. */
export function orderFigures(drawing: Drawing): OrderFigure[] {
  const steps = orderSteps(drawing)
  const visits = visitsOf(steps)
  return visits.flatMap(({ from, to }) => {
    const parts = Math.ceil((to - from) / MOST_STEPS)
    const size = Math.ceil((to - from) / parts)
    const view = viewOf(drawing, steps.slice(from, to))
    return Array.from({ length: parts }, (_, part): OrderFigure => {
      const first = from + part * size
      const now = steps.slice(first, Math.min(to, first + size))
      return {
        title: titleOf(drawing, now[0]!.area, [part + 1, parts]),
        summary: summaryOf(drawing, now),
        view,
        done: steps.slice(0, first),
        now,
      }
    })
  })
}

function titleOf(drawing: Drawing, area: number, [part, parts]: readonly [number, number]): string {
  const { order: say } = LABELS
  if (parts === 1) return say.area(area + 1, drawing.areaCount)
  return say.areaPart(area + 1, drawing.areaCount, part, parts)
}

function summaryOf(drawing: Drawing, steps: readonly WordedStep[]): string {
  const length = steps.reduce((sum, s) => sum + polylineLength(s.points), 0)
  return LABELS.order.summary(longLengthText(length, drawing.units))
}

/** Index ranges of the steps that stay in one area. */
function visitsOf(steps: readonly WordedStep[]): { from: number; to: number }[] {
  const visits: { from: number; to: number }[] = []
  steps.forEach((step, i) => {
    const last = visits.at(-1)
    if (last && steps[last.from]!.area === step.area) last.to = i + 1
    else visits.push({ from: i, to: i + 1 })
  })
  return visits
}

/** The box round the steps with some of the quilt about it, within the quilt. */
function viewOf(drawing: Drawing, steps: readonly WordedStep[]): Box {
  const box = boundsOf(steps.flatMap((s) => s.points as Point[]))
  const about = Math.max(12, 0.1 * Math.max(box.maxX - box.minX, box.maxY - box.minY))
  const { widthMm, heightMm } = drawing.quilt
  return {
    minX: Math.max(-3, box.minX - about),
    minY: Math.max(-3, box.minY - about),
    maxX: Math.min(widthMm + 3, box.maxX + about),
    maxY: Math.min(heightMm + 3, box.maxY + about),
  }
}
