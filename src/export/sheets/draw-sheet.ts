import { add, distance, type Point, scale } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import { LABELS } from '../labels.ts'
import { arrowHead, type Page, type Shape, textShape } from '../shape/shape.ts'
import { fitText, textWidth } from '../shape/text-width.ts'
import { type BoxedLine, cutLine } from './cut-line.ts'
import { GREY, GUIDE, LAYERS, PENS } from './look.ts'
import type { SheetPlan } from './sheet-plan.ts'
import { arrowShape, tagShapes } from './tag-shapes.ts'
import { ownOf, type Place, registerMarks, sheetName, showsOf } from './tiling.ts'
import type { Tracing } from './tracing.ts'

/** What every sheet says of the whole. */
export interface SheetHead {
  readonly title: string
  readonly mirrored: 'mirrored' | 'as stitched'
  /** Number of this sheet and of all, the cover not counted. */
  readonly count: readonly [number: number, of: number]
  readonly names: ReadonlySet<string>
}

/** One full-size sheet: its piece of the line, guidance, marks, and labels in the margin. */
export function drawSheet(tracing: Tracing, plan: SheetPlan, at: Place & SheetHead): Page {
  const { sheet, margin } = plan.tiling
  const shows = showsOf(plan.tiling, at)
  const shift: Point = [margin - shows.minX, margin - shows.minY]
  const window: Box = { minX: margin, minY: margin, maxX: sheet.width - margin, maxY: sheet.height - margin }
  const inside: Shape = {
    kind: 'clip',
    box: window,
    shapes: [
      { kind: 'layer', name: LAYERS.seams, shapes: linesIn(tracing.seams, { shows, shift }, PENS.seam) },
      {
        kind: 'layer',
        name: LAYERS.register,
        shapes: [...trimLines(plan, at, shift), ...marksIn(plan, shows, shift)],
      },
      { kind: 'layer', name: LAYERS.words, shapes: namesIn(tracing, shows, shift) },
      { kind: 'layer', name: LAYERS.order, shapes: tagsIn(tracing, shows, shift) },
      { kind: 'layer', name: LAYERS.stitch, shapes: linesIn(tracing.lines, { shows, shift }, PENS.stitch) },
      { kind: 'layer', name: LAYERS.order, shapes: arrowsIn(tracing, shows, shift) },
    ],
  }
  const words: Shape = {
    kind: 'layer',
    name: LAYERS.words,
    shapes: [...headWords(plan, at), ...nextWords(plan, at)],
  }
  return { ...sheet, shapes: [inside, words] }
}

function linesIn(
  lines: readonly BoxedLine[],
  { shows, shift }: { shows: Box; shift: Point },
  pen: (typeof PENS)[keyof typeof PENS],
): Shape[] {
  const cut = lines.flatMap((line) => cutLine(line, shows))
  if (cut.length === 0) return []
  return [{ kind: 'lines', polylines: cut.map((points) => points.map((p) => add(p, shift))), pen }]
}

const near = ([x, y]: Point, box: Box, reach: number): boolean =>
  x >= box.minX - reach && x <= box.maxX + reach && y >= box.minY - reach && y <= box.maxY + reach

const arrowsIn = (tracing: Tracing, shows: Box, shift: Point): Shape[] =>
  tracing.arrows.filter((a) => near(a.at, shows, 4)).map((a) => arrowShape({ ...a, at: add(a.at, shift) }))

/** Drawn below the line, so that no word hides a stitch. */
const tagsIn = (tracing: Tracing, shows: Box, shift: Point): Shape[] =>
  tracing.tags.filter((t) => near(t.at, shows, 30)).flatMap((t) => tagShapes({ ...t, at: add(t.at, shift) }))

const NAME = { size: 2.6, weight: 'regular', colour: GREY } as const

/** Names of the bands, near the beginning of every stretch that has room for them. */
function namesIn({ names }: Tracing, shows: Box, shift: Point): Shape[] {
  return names.flatMap(({ text, along }) => {
    const room = textWidth(text, NAME) + 24
    return cutLine(along, shows)
      .filter((line) => distance(line[0]!, line.at(-1)!) > room)
      .map((line) => nameAlong(text, add(line[0]!, shift), add(line.at(-1)!, shift)))
  })
}

/** Read from the left, or from below on an upright side. */
function nameAlong(text: string, a: Point, b: Point): Shape {
  if (Math.abs(b[0] - a[0]) >= Math.abs(b[1] - a[1]))
    return textShape([Math.min(a[0], b[0]) + 12, a[1] + 0.9], text, NAME)
  return textShape([a[0] + 0.9, Math.max(a[1], b[1]) - 12], text, { ...NAME, turn: -Math.PI / 2 })
}

function marksIn({ tiling }: SheetPlan, shows: Box, shift: Point): Shape[] {
  return registerMarks(tiling)
    .filter((at) => near(at, shows, 0))
    .flatMap((at) => markShapes(add(at, shift)))
}

/** A cross in a ring, sized to stay inside the overlap's paper. */
function markShapes([x, y]: Point): Shape[] {
  const cross: Point[][] = [
    [
      [x - 4.5, y],
      [x + 4.5, y],
    ],
    [
      [x, y - 4.5],
      [x, y + 4.5],
    ],
  ]
  return [
    { kind: 'lines', polylines: cross, pen: PENS.mark },
    { kind: 'disc', centre: [x, y], radius: 2.2, pen: PENS.mark },
  ]
}

/** Where the sheet may be cut or folded: the middle of each overlap. */
function trimLines({ tiling }: SheetPlan, place: Place, shift: Point): Shape[] {
  const [own, shows] = [ownOf(tiling, place), showsOf(tiling, place)]
  const lines: Point[][] = []
  for (const x of [own.minX, own.maxX])
    if (x !== shows.minX && x !== shows.maxX)
      lines.push([add([x, shows.minY], shift), add([x, shows.maxY], shift)])
  for (const y of [own.minY, own.maxY])
    if (y !== shows.minY && y !== shows.maxY)
      lines.push([add([shows.minX, y], shift), add([shows.maxX, y], shift)])
  return lines.length > 0 ? [{ kind: 'lines', polylines: lines, pen: PENS.trim }] : []
}

function headWords({ tiling }: SheetPlan, at: Place & SheetHead): Shape[] {
  const { sheet, margin } = tiling
  const say = LABELS.sheets
  const above = margin - 3.2
  const mirrored = at.mirrored === 'mirrored' ? ` ${say.mirrored}` : ''
  const title = { size: 3.2, weight: 'regular' } as const
  const room = sheet.width - 2 * margin - 18 - 36
  return [
    textShape([margin, above], sheetName(at), { size: 6, weight: 'bold' }),
    textShape([margin + 18, above], fitText(`${at.title}${mirrored}`, room, title), title),
    textShape([sheet.width - margin, above], say.count(...at.count), {
      size: 3,
      anchor: 'end',
      colour: GREY,
    }),
    textShape([margin, sheet.height - margin + 5.6], say.fullSize, { size: 2.8, colour: GREY }),
  ]
}

/** At the middle of each edge: which sheet is next, with an arrow. */
function nextWords({ tiling }: SheetPlan, at: Place & SheetHead): Shape[] {
  const { sheet, margin } = tiling
  const [w, h] = [sheet.width, sheet.height]
  const edges: { place: Place; middle: Point; out: Point }[] = [
    { place: { row: at.row, column: at.column - 1 }, middle: [margin - 4.2, h / 2], out: [-1, 0] },
    { place: { row: at.row, column: at.column + 1 }, middle: [w - margin + 4.2, h / 2], out: [1, 0] },
    { place: { row: at.row - 1, column: at.column }, middle: [w / 2, margin - 4.2], out: [0, -1] },
    { place: { row: at.row + 1, column: at.column }, middle: [w / 2, h - margin + 4.2], out: [0, 1] },
  ]
  return edges
    .filter(({ place }) => place.row >= 0 && place.column >= 0 && at.names.has(sheetName(place)))
    .flatMap(({ place, middle, out }) => [
      arrowHead(add(middle, scale(out, 1.6)), out, { size: 3.2, fill: GUIDE }),
      textShape(
        out[0] !== 0 ? [middle[0] - 2.6, middle[1] + 6] : [middle[0] + 3, middle[1] + 1.2],
        sheetName(place),
        {
          size: 3.2,
          weight: 'bold',
          colour: GUIDE,
        },
      ),
    ])
}
