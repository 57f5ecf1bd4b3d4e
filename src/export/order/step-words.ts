import { distanceToLine, type Point } from '../../geometry/point.ts'
import { polylineLength } from '../../geometry/stroke.ts'
import { outsideOf } from '../../quilt/avoided-region.ts'
import { type Quilt, wholeCloth } from '../../quilt/quilt.ts'
import { bandName } from '../band-name.ts'
import type { Drawing } from '../drawing.ts'
import { LABELS, lengthText } from '../labels.ts'
import { hasThreads, threadName } from '../thread-name.ts'
import { courseOf, isOpposite } from './course.ts'
import type { OrderStep } from './order-steps.ts'

/** What to do in this step, as a sentence or two. */
export function stepWords(drawing: Drawing, step: OrderStep, before: OrderStep | undefined): string {
  const { order: say } = LABELS
  const sentences = [sentence(drawing, step, before)]
  if (step.begins) sentences.unshift(beginning(drawing, step.thread))
  if (step.ends) sentences.push(say.finish)
  return sentences.join(' ')
}

/** Where a thread starts: which, if there are several, and whether it is another than before. */
function beginning(drawing: Drawing, start: number): string {
  const { order: say } = LABELS
  const { lines } = drawing
  if (!hasThreads(drawing)) return say.begin(start + 1, lines.length)
  const { thread } = lines[start]!
  const isChange = start > 0 && lines[start - 1]!.thread !== thread
  return say.beginWith(start + 1, lines.length, threadName(drawing, thread), isChange)
}

function sentence(drawing: Drawing, step: OrderStep, before: OrderStep | undefined): string {
  const { order: say } = LABELS
  const quilt = drawing.allOver === undefined ? drawing.quilt : wholeCloth(drawing.quilt)
  const course = courseOf(quilt, step.points, step.band)
  const length = lengthText(polylineLength(step.points), drawing.units)
  if (step.region !== undefined)
    return say.edge(drawing.quilt.regions?.[step.region]?.name ?? '', length, step.kind === 'travel')
  if (step.kind === 'ditch') return say.ditch(course.words, length)
  if (step.kind === 'travel')
    return step.reason ? say.travelFor(course.words, length, step.reason) : say.travel(course.words, length)
  const isBack = followsOn(step, before) && isOpposite(courseOf(quilt, before.points, before.band), course)
  const way = isBack ? say.back(course.words) : course.words
  const [from, to] = [step.points[0]!, step.points.at(-1)!].map((p) => seamAt(quilt, step.band, p)) as [
    SeamName,
    SeamName,
  ]
  const [first, last] = [step.points[0]!, step.points.at(-1)!].map((p) => regionAt(quilt, p))
  const arrival = last ? say.edgeOf(last) : from === to && !first ? say.same[to] : say.seam[to]
  return say.run(whatOf(drawing, step), first ? say.edgeOf(first) : say.seam[from], way, arrival)
}

/** A point this close to a region's edge lies on it, mm. */
const ON_EDGE = 0.1

/** The name of the region on whose edge a point lies. */
const regionAt = ({ regions = [] }: Quilt, p: Point): string | undefined =>
  regions.find((region) => Math.abs(outsideOf(region)(p)) < ON_EDGE)?.name

function whatOf(drawing: Drawing, { band }: OrderStep): string {
  const { order: say } = LABELS
  if (drawing.allOver !== undefined) return say.allOverRun(drawing.allOver)
  if (band === undefined || band < 0) return say.centreRun(drawing.centreFiller)
  return say.bandRun(bandName(drawing, band), drawing.fillers?.[band])
}

/** Whether a run follows on another in the same area, so that it may go back along it, like mowing. */
const followsOn = (step: OrderStep, before: OrderStep | undefined): before is OrderStep =>
  before?.kind === 'fill' && before.area === step.area && before.thread === step.thread

type SeamName = keyof typeof LABELS.order.seam

/** Which seam of its band a point lies on: within a tenth of the band's width there. */
export function seamAt(quilt: Quilt, band: number | undefined, p: Point): SeamName {
  if (band === undefined) return 'inside'
  const isLast = band === quilt.bands.length - 1
  const outer = distanceToRing(p, quilt.rings[band + 1])
  const inner = band < 0 ? Infinity : distanceToRing(p, quilt.rings[band])
  const near = band < 0 ? 5 : Math.max(1, (inner + outer) / 10)
  if (outer <= near && outer <= inner) return isLast ? 'edge' : 'outer'
  return inner <= near ? 'inner' : 'inside'
}

function distanceToRing(p: Point, ring: readonly Point[] | undefined): number {
  if (!ring) return Infinity
  return Math.min(...ring.map((a, i) => distanceToLine(p, a, ring[(i + 1) % ring.length]!)))
}
