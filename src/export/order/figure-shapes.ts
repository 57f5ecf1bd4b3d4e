import { add, distance, type Point, scale, subtract, unit } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import { simplifyPoints } from '../path/simplify.ts'
import { arrowHead, boxShape, type Pen, type Shape, textShape } from '../shape/shape.ts'
import { wrapToWidth } from '../shape/text-width.ts'
import { boxedLine, cutLine } from '../sheets/cut-line.ts'
import type { Paper } from '../sheets/paper.ts'
import { arrowsAlong } from '../sheets/tracing.ts'
import type { OrderFigure } from './order-figures.ts'

const INK = '#161616'
const DITCH = '#a8481c'
const DONE = '#b9b9b9'
const SEAM = '#d9d3c7'
const PLATE = '#1f4e79'

const PENS = {
  now: { colour: INK, width: 0.55 },
  ditch: { colour: DITCH, width: 0.55, dash: [1.2, 1.2] },
  done: { colour: DONE, width: 0.35 },
  seam: { colour: SEAM, width: 0.2 },
  frame: { colour: '#8f8f8f', width: 0.2 },
} as const satisfies Record<string, Pen>

/** Text of the steps, mm. */
const TEXT = { size: 2.9, weight: 'regular' } as const
const LEADING = 3.9
const TITLE_HEIGHT = 14

/** A figure drawn `width` mm wide, from the top left corner, with how much room it took. */
export interface DrawnFigure {
  readonly shapes: Shape[]
  readonly width: number
  readonly height: number
}

/** How a figure is to be drawn. */
export interface FigureSize {
  /** mm */
  readonly width: number
  /** A picture is never taller than this share of its width. */
  readonly tallest: number
}

/** Title and a small map of the quilt, the picture, and the steps in words below. */
export function drawFigure(quilt: Quilt, figure: OrderFigure, { width, tallest }: FigureSize): DrawnFigure {
  const room = { width, height: pictureHeight(figure.view, { width, tallest }) }
  const words = stepText(figure, width, TITLE_HEIGHT + room.height + 5)
  const picture = drawPicture(quilt, figure, room)
  const title = [
    textShape([0, 6.5], figure.title, { size: 4.4, weight: 'bold' }),
    textShape([0, 11.4], figure.summary, { size: 2.9, colour: '#555555' }),
  ]
  return {
    shapes: [...title, ...smallMap(quilt, figure.view, width), ...picture, ...words.shapes],
    width,
    height: words.height,
  }
}

function pictureHeight(view: Box, { width, tallest }: FigureSize): number {
  const aspect = (view.maxY - view.minY) / (view.maxX - view.minX)
  return width * Math.min(tallest, Math.max(0.45, aspect))
}

function stepText({ now }: OrderFigure, width: number, top: number): DrawnFigure {
  const shapes: Shape[] = []
  let y = top
  now.forEach((step, i) => {
    shapes.push(textShape([4.2, y], `${i + 1}`, { ...TEXT, weight: 'bold', anchor: 'end', colour: PLATE }))
    for (const line of wrapToWidth(step.words, width - 6, TEXT)) {
      shapes.push(textShape([6, y], line, TEXT))
      y += LEADING
    }
    y += 0.5
  })
  return { shapes, width, height: y - LEADING + 2 }
}

/** The picture alone, with the small map above it at the right, as tall as it needs. */
export function drawFigurePicture(quilt: Quilt, figure: OrderFigure, size: FigureSize): DrawnFigure {
  const room = { width: size.width, height: pictureHeight(figure.view, size) }
  return {
    shapes: [...smallMap(quilt, figure.view, size.width), ...drawPicture(quilt, figure, room)],
    width: size.width,
    height: TITLE_HEIGHT + room.height + 0.5,
  }
}

/** From quilt to page: the view centred in the picture. */
interface Projection {
  readonly place: (p: Point) => Point
  readonly scale: number
  /** What the picture shows, in quilt coordinates. */
  readonly shows: Box
}

function projectionOf(view: Box, room: Paper): Projection {
  const [w, h] = [view.maxX - view.minX, view.maxY - view.minY]
  const scale = Math.min(room.width / w, room.height / h)
  const [left, top] = [(room.width - w * scale) / 2, TITLE_HEIGHT + (room.height - h * scale) / 2]
  const place = ([x, y]: Point): Point => [left + (x - view.minX) * scale, top + (y - view.minY) * scale]
  const shows = {
    minX: view.minX - left / scale,
    maxX: view.minX + (room.width - left) / scale,
    minY: view.minY - (top - TITLE_HEIGHT) / scale,
    maxY: view.minY + (room.height + TITLE_HEIGHT - top) / scale,
  }
  return { place, scale, shows }
}

function drawPicture(quilt: Quilt, figure: OrderFigure, room: Paper): Shape[] {
  const projection = projectionOf(figure.view, room)
  const frame = { minX: 0, minY: TITLE_HEIGHT, maxX: room.width, maxY: TITLE_HEIGHT + room.height }
  const inside: Shape = {
    kind: 'clip',
    box: frame,
    shapes: [
      ...seamShapes(quilt, projection),
      ...pathShapes(
        figure.done.map((s) => s.points),
        projection,
        PENS.done,
      ),
      ...pathShapes(
        figure.now.filter((s) => s.kind !== 'fill').map((s) => s.points),
        projection,
        PENS.ditch,
      ),
      ...pathShapes(
        figure.now.filter((s) => s.kind === 'fill').map((s) => s.points),
        projection,
        PENS.now,
      ),
      ...arrowShapes(figure, projection),
      ...endShapes(figure, projection),
      ...numberShapes(figure, projection, frame),
    ],
  }
  return [inside, boxShape(frame, { pen: PENS.frame })]
}

const closed = (points: readonly Point[]): Point[] => [...points, points[0]!]

function seamShapes(quilt: Quilt, projection: Projection): Shape[] {
  const rings = quilt.seams.map((s) => (s.kind === 'ring' ? closed(s.points) : [...s.points]))
  return [
    ...pathShapes(rings, projection, PENS.seam),
    ...pathShapes([closed(quilt.edge)], projection, { ...PENS.seam, width: 0.4 }),
  ]
}

function pathShapes(
  lines: readonly (readonly Point[])[],
  { place, scale, shows }: Projection,
  pen: Pen,
): Shape[] {
  const polylines = lines
    .flatMap((points) => cutLine(boxedLine(points), shows))
    .map((points) => simplifyPoints(points, 0.06 / scale, []).map(place))
  return polylines.length > 0 ? [{ kind: 'lines', polylines, pen }] : []
}

/** An arrow every 16 mm on paper, at least one a step that is long enough to bear it. */
function arrowShapes({ now }: OrderFigure, { place }: Projection): Shape[] {
  return now.flatMap(({ points, kind }) => {
    const drawn = points.map(place)
    const length = drawn.reduce((sum, p, i) => sum + (i > 0 ? distance(p, drawn[i - 1]!) : 0), 0)
    const step = Math.min(16, length)
    if (length < 4) return []
    const fill = kind === 'fill' ? INK : DITCH
    return arrowsAlong(drawn, step).map(({ at, along }) =>
      arrowHead(add(at, scale(along, 1)), along, { size: 2.2, fill }),
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
    const centre = freePlace(at, unit(subtract(then, at)), taken, frame)
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
function freePlace(at: Point, along: Point, taken: readonly Point[], frame: Box): Point {
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

const MAP = 12

/** The quilt in small at the right of the title, with the view marked. */
function smallMap(quilt: Quilt, view: Box, width: number): Shape[] {
  const scale = MAP / Math.max(quilt.widthMm, quilt.heightMm)
  const x = width - quilt.widthMm * scale
  const y = TITLE_HEIGHT - 1.5 - quilt.heightMm * scale
  const place = ([px, py]: Point): Point => [x + px * scale, y + py * scale]
  const [minX, minY] = place([Math.max(0, view.minX), Math.max(0, view.minY)])
  const [maxX, maxY] = place([Math.min(quilt.widthMm, view.maxX), Math.min(quilt.heightMm, view.maxY)])
  return [
    { kind: 'area', points: quilt.edge.map(place), fill: '#f3efe7', pen: PENS.frame },
    boxShape({ minX, minY, maxX, maxY }, { fill: '#9db7d1', pen: { colour: PLATE, width: 0.2 } }),
    { kind: 'area', points: quilt.rings[0]!.map(place), pen: { colour: '#8f8f8f', width: 0.15 } },
  ]
}
