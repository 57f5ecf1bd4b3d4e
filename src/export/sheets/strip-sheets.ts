import { PlanError } from '../../error.ts'
import { add, type Point } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import { sideWords } from '../../quilt/side-words.ts'
import { bandName } from '../band-name.ts'
import type { Drawing, TraceStrip } from '../drawing.ts'
import { LABELS } from '../labels.ts'
import { type Page, type Shape, textShape } from '../shape/shape.ts'
import { textWidth } from '../shape/text-width.ts'
import { coverPage } from './cover.ts'
import { drawSheet } from './draw-sheet.ts'
import { GREY, LAYERS, PENS } from './look.ts'
import type { Paper } from './paper.ts'
import { mirrorOf, type SheetSet, trimmed } from './quilt-sheets.ts'
import { planSheets, sheetNames } from './sheet-plan.ts'
import { arrowShape, tagShapes } from './tag-shapes.ts'
import { stripTracing, type Tracing } from './tracing.ts'

/** Room above a piece for its name, and between pieces, mm. */
const CAPTION = 12.5
const GAP = 6

const CAPTION_STYLE = { size: 3.4, weight: 'bold' } as const

interface Piece {
  readonly caption: string
  readonly times: string
  readonly tracing: Tracing
}

/**
 * One straight run and one corner of each band at full size. Small pieces share sheets; a piece larger than a sheet is
 * tiled like a quilt.
 *
 * @throws PlanError `export/no-strips` if the drawing has none
 */
export function stripSheets(drawing: Drawing, set: SheetSet): Page[] {
  const { strips } = drawing
  if (!strips || strips.length === 0)
    throw new PlanError({
      code: 'export/no-strips',
      at: 'content',
      message: 'this drawing has no strips to trace',
    })
  const window = inner(set.cover, set.margin)
  const pieces = strips.map((strip) => pieceOf(drawing, strip, set))
  const fits = ({ tracing }: Piece) =>
    widthOf(tracing.box) <= window.width && heightOf(tracing.box) + CAPTION <= window.height
  const shared = shelve(pieces.filter(fits), window)
  const large = pieces.filter((p) => !fits(p)).flatMap((piece) => tiled(drawing, piece, set))
  const { sheets: say } = LABELS
  const pages = [...shared.map((placed) => sharedPage(drawing, placed, set)), ...large]
  const text = {
    title: drawing.title,
    heading: set.mirrored ? `${say.stripsHeading} ${say.mirrored}` : say.stripsHeading,
    facts: say.sheetCount(pages.length),
    steps: say.stripSteps,
  }
  return [coverPage(set.cover, text, undefined), ...pages]
}

const inner = (paper: Paper, margin: number): Paper => ({
  width: paper.width - 2 * margin,
  height: paper.height - 2 * margin,
})
const widthOf = (box: Box): number => box.maxX - box.minX
const heightOf = (box: Box): number => box.maxY - box.minY

function pieceOf(drawing: Drawing, strip: TraceStrip, set: SheetSet): Piece {
  const { sheets: say } = LABELS
  const name = bandName(drawing, strip.band)
  const ring = drawing.quilt.rings[strip.band]!
  const where = { ...strip, sides: strip.sides?.map((side) => sideWords(ring, side)) }
  return {
    caption: say.piece(name, strip.piece, where),
    times: say.times(strip.times, strip.turned),
    tracing: trimmed(stripTracing(strip, mirrorOf(set)), set.layers),
  }
}

interface Placed {
  readonly piece: Piece
  /** Top left corner of the piece with its caption, from the window's. */
  readonly at: Point
}

/** A row of pieces on a sheet. */
interface Shelf {
  readonly top: number
  readonly height: number
  right: number
}

/** Puts each piece, tallest first, on the first shelf with room, else on a new shelf below, else on a new sheet. */
function shelve(pieces: readonly Piece[], window: Paper): Placed[][] {
  const sheets: { shelves: Shelf[]; placed: Placed[] }[] = []
  for (const piece of [...pieces].sort((a, b) => heightOf(b.tracing.box) - heightOf(a.tracing.box))) {
    const size = {
      width: Math.max(widthOf(piece.tracing.box), textWidth(piece.caption, CAPTION_STYLE)),
      height: heightOf(piece.tracing.box) + CAPTION,
    }
    let sheet = sheets.find(({ shelves }) => shelfFor(shelves, size, window))
    if (!sheet) {
      sheet = { shelves: [], placed: [] }
      sheets.push(sheet)
    }
    const shelf = shelfFor(sheet.shelves, size, window)!
    if (!sheet.shelves.includes(shelf)) sheet.shelves.push(shelf)
    sheet.placed.push({ piece, at: [shelf.right, shelf.top] })
    shelf.right += size.width + GAP
  }
  return sheets.map((s) => s.placed)
}

function shelfFor(shelves: readonly Shelf[], { width, height }: Paper, window: Paper): Shelf | undefined {
  const open = shelves.find((s) => s.height >= height && s.right + width <= window.width + 1e-6)
  if (open) return open
  const last = shelves.at(-1)
  const top = last ? last.top + last.height + GAP : 0
  return top + height <= window.height + 1e-6 ? { top, height, right: 0 } : undefined
}

function sharedPage(drawing: Drawing, placed: readonly Placed[], set: SheetSet): Page {
  const { margin, cover } = set
  const say = LABELS.sheets
  const head = textShape([margin, margin - 3.2], drawing.title, { size: 3, colour: GREY })
  const foot = textShape([margin, cover.height - margin + 5.6], say.fullSize, { size: 2.8, colour: GREY })
  const shapes = placed.flatMap(({ piece, at }) => pieceShapes(piece, add(at, [margin, margin])))
  return { ...cover, shapes: [...shapes, { kind: 'layer', name: LAYERS.words, shapes: [head, foot] }] }
}

function pieceShapes({ caption, times, tracing }: Piece, at: Point): Shape[] {
  const shift: Point = [at[0] - tracing.box.minX, at[1] + CAPTION - tracing.box.minY]
  const moved = (points: readonly Point[]) => points.map((p) => add(p, shift))
  const lines = (which: Tracing['lines'], pen: (typeof PENS)['stitch' | 'seam']): Shape => ({
    kind: 'lines',
    polylines: which.map((l) => moved(l.points)),
    pen,
  })
  return [
    {
      kind: 'layer',
      name: LAYERS.seams,
      shapes: tracing.seams.length > 0 ? [lines(tracing.seams, PENS.seam)] : [],
    },
    { kind: 'layer', name: LAYERS.stitch, shapes: [lines(tracing.lines, PENS.stitch)] },
    {
      kind: 'layer',
      name: LAYERS.order,
      shapes: [
        ...tracing.arrows.map((a) => arrowShape({ ...a, at: add(a.at, shift) })),
        ...tracing.tags.flatMap((t) => tagShapes({ ...t, at: add(t.at, shift) })),
      ],
    },
    {
      kind: 'layer',
      name: LAYERS.words,
      shapes: [
        textShape([at[0], at[1] + 3], caption, CAPTION_STYLE),
        textShape([at[0], at[1] + 7], times, { size: 3.2 }),
      ],
    },
  ]
}

function tiled(drawing: Drawing, { caption, times, tracing }: Piece, set: SheetSet): Page[] {
  const plan = planSheets(tracing, set)
  const names = sheetNames(plan)
  return plan.places.map((place, i) =>
    drawSheet(tracing, plan, {
      ...place,
      title: `${caption}, ${times}. ${drawing.title}`,
      mirrored: set.mirrored ? 'mirrored' : 'as stitched',
      names,
      count: [i + 1, plan.places.length],
    }),
  )
}
