import { add, distance, type Point, scale, subtract, unit } from '../../geometry/point.ts'
import { type Box, flattenStroke, polylineLength } from '../../geometry/stroke.ts'
import { outlineOf } from '../../quilt/avoided-region.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import { simplifyPoints } from '../path/simplify.ts'
import { arrowHead, boxShape, type Pen, type Shape, textShape } from '../shape/shape.ts'
import { boxedLine, cutLine } from '../sheets/cut-line.ts'
import { type Arrow, arrowsAlong } from '../sheets/tracing.ts'
import { DITCH, DONE, FRAME, INK, PLATE, SEAM } from './look.ts'
import type { OrderFigure } from './order-figures.ts'

/** From quilt to page: the view centred in the picture. */
interface Projection {
  readonly place: (p: Point) => Point
  readonly scale: number
  /** What the picture shows, in quilt coordinates. */
  readonly shows: Box
}

function projectionOf(view: Box, frame: Box): Projection {
  const [w, h] = [view.maxX - view.minX, view.maxY - view.minY]
  const [width, height] = [frame.maxX - frame.minX, frame.maxY - frame.minY]
  const scale = Math.min(width / w, height / h)
  const [left, top] = [frame.minX + (width - w * scale) / 2, frame.minY + (height - h * scale) / 2]
  const place = ([x, y]: Point): Point => [left + (x - view.minX) * scale, top + (y - view.minY) * scale]
  const shows = {
    minX: view.minX - (left - frame.minX) / scale,
    maxX: view.minX + (frame.maxX - left) / scale,
    minY: view.minY - (top - frame.minY) / scale,
    maxY: view.minY + (frame.maxY - top) / scale,
  }
  return { place, scale, shows }
}

/** The picture of a figure in its frame: done in grey, now bold, with arrows and numbers. */
export function drawPicture(quilt: Quilt, figure: OrderFigure, frame: Box): Shape[] {
  const projection = projectionOf(figure.view, frame)
  const weight = weightOf(figure, projection.scale, frame)
  const fills = figure.now.filter((s) => s.kind === 'fill')
  const others = figure.now.filter((s) => s.kind !== 'fill')
  const dashed: Pen = { colour: DITCH, width: weight.pen, dash: [1.2, 1.2] }
  const inside: Shape = {
    kind: 'clip',
    box: frame,
    shapes: [
      ...seamShapes(quilt, projection),
      ...pathShapes(figure.done, projection, { colour: DONE, width: weight.pen * 0.65 }),
      ...pathShapes(others, projection, dashed),
      ...pathShapes(fills, projection, { colour: INK, width: weight.pen }),
      ...arrowShapes(figure, projection, weight.arrow),
      ...endShapes(figure, projection),
      ...numberShapes(figure, projection, frame),
    ],
  }
  return [inside, boxShape(frame, { pen: FRAME })]
}

/** Pen and arrows are finer the closer the lines lie, mm. */
function weightOf({ now }: OrderFigure, scale: number, frame: Box): { pen: number; arrow: number } {
  const drawn = now.reduce((sum, s) => sum + polylineLength(s.points), 0) * scale
  const spacing = ((frame.maxX - frame.minX) * (frame.maxY - frame.minY) * 0.6) / Math.max(drawn, 1)
  const between = (low: number, value: number, high: number) => Math.min(high, Math.max(low, value))
  return { pen: between(0.25, spacing * 0.11, 0.55), arrow: between(1.4, spacing * 0.5, 2.2) }
}

const closed = (points: readonly Point[]): Point[] => [...points, points[0]!]

function seamShapes(quilt: Quilt, projection: Projection): Shape[] {
  const rings = quilt.seams.map((s) => ({ points: s.kind === 'ring' ? closed(s.points) : s.points }))
  const edges = (quilt.regions ?? []).map((region) => ({ points: flattenStroke(outlineOf(region), 0.05) }))
  return [
    ...pathShapes(rings, projection, { colour: SEAM, width: 0.2 }),
    ...pathShapes(edges, projection, { colour: SEAM, width: 0.35 }),
    ...pathShapes([{ points: closed(quilt.edge) }], projection, { colour: SEAM, width: 0.4 }),
  ]
}

function pathShapes(
  lines: readonly { readonly points: readonly Point[] }[],
  { place, scale, shows }: Projection,
  pen: Pen,
): Shape[] {
  const polylines = lines
    .flatMap(({ points }) => cutLine(boxedLine(points), shows))
    .map((points) => simplifyPoints(points, 0.06 / scale, []).map(place))
  return polylines.length > 0 ? [{ kind: 'lines', polylines, pen }] : []
}

/** An arrow every 16 mm on paper, at least one a step that is long enough to bear it. */
function arrowShapes({ now }: OrderFigure, { place }: Projection, size: number): Shape[] {
  return now.flatMap(({ points, kind }) => {
    const drawn = points.map(place)
    const length = drawn.reduce((sum, p, i) => sum + (i > 0 ? distance(p, drawn[i - 1]!) : 0), 0)
    const step = Math.min(16, length)
    if (length < 4) return []
    const fill = kind === 'fill' ? INK : DITCH
    return arrowsAlong(drawn, step).map(({ at, along }) =>
      arrowHead(add(at, scale(along, size / 2)), along, { size, fill }),
    )
  })
}

const DISC = 2.1

/** The number of each step beside the place where it begins, moved about until it covers no other. */
function numberShapes({ now }: OrderFigure, { place }: Projection, frame: Box): Shape[] {
  const taken: Point[] = []
  return now.flatMap((step, i) => {
    const at = place(step.points[0]!)
    const then = place(step.points[Math.min(3, step.points.length - 1)]!)
    const centre = freePlace({ at, along: unit(subtract(then, at)) }, taken, frame)
    taken.push(centre)
    return [
      { kind: 'lines', polylines: [[at, centre]], pen: { colour: PLATE, width: 0.25 } },
      { kind: 'disc', centre: at, radius: 0.7, fill: PLATE },
      { kind: 'disc', centre, radius: DISC, fill: PLATE, pen: { colour: '#ffffff', width: 0.3 } },
      textShape([centre[0], centre[1] + 0.95], String(i + 1), {
        size: 2.7,
        anchor: 'middle',
        weight: 'bold',
        colour: '#ffffff',
      }),
    ] satisfies Shape[]
  })
}

/** The first of some places round `at` that lies inside the frame and clear of those taken; else the clearest. */
function freePlace({ at, along }: Arrow, taken: readonly Point[], frame: Box): Point {
  const turns = [-90, 90, 180, -135, 135, -45, 45].map((degrees) => (degrees * Math.PI) / 180)
  const angle = Math.atan2(along[1], along[0])
  const places = [3.6, 6.4].flatMap((reach) =>
    turns.map((t): Point => [at[0] + reach * Math.cos(angle + t), at[1] + reach * Math.sin(angle + t)]),
  )
  const within = places.filter(
    ([x, y]) =>
      x > frame.minX + DISC && x < frame.maxX - DISC && y > frame.minY + DISC && y < frame.maxY - DISC,
  )
  const clearance = (p: Point) => Math.min(Infinity, ...taken.map((t) => distance(p, t)))
  const candidates = within.length > 0 ? within : places
  return (
    candidates.find((p) => clearance(p) > 2 * DISC + 0.3) ??
    candidates.reduce((best, p) => (clearance(p) > clearance(best) ? p : best))
  )
}

/** A ring where the figure's last step ends. */
function endShapes({ now }: OrderFigure, { place }: Projection): Shape[] {
  const end = place(now.at(-1)!.points.at(-1)!)
  return [{ kind: 'disc', centre: end, radius: 1.2, fill: '#ffffff', pen: { colour: PLATE, width: 0.5 } }]
}
