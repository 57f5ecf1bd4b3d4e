import { PlanError } from '../../error.ts'
import { add, type Point } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import { bandName } from '../band-name.ts'
import type { Drawing, TraceStrip } from '../drawing.ts'
import { LABELS } from '../labels.ts'
import { type Page, type Shape, textShape } from '../shape/shape.ts'
import { coverPage } from './cover.ts'
import { drawSheet } from './draw-sheet.ts'
import { GREY, LAYERS, PENS } from './look.ts'
import type { Paper } from './paper.ts'
import { mirrorOf, type SheetSet, trimmed } from './quilt-sheets.ts'
import { planSheets, sheetNames } from './sheet-plan.ts'
import { arrowShape, tagShapes } from './tag-shapes.ts'
import { stripTracing, type Tracing } from './tracing.ts'

/** Room above a piece for its name, and between pieces, mm. */
const CAPTION = 11
const GAP = 6

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
  const name = bandName(drawing.quilt, strip.band)
  return {
    caption: say.piece(name, strip.piece),
    times: say.times(strip.times),
    tracing: trimmed(stripTracing(strip, mirrorOf(set.mirrored)), set.layers),
  }
}

interface Placed {
  readonly piece: Piece
  /** Top left corner of the piece with its caption, from the window's. */
  readonly at: Point
}

/** Puts pieces in rows from the top, tallest first, a new sheet when one is full. */
function shelve(pieces: readonly Piece[], window: Paper): Placed[][] {
  const sheets: Placed[][] = []
  let [x, y, row] = [0, Infinity, 0]
  for (const piece of [...pieces].sort((a, b) => heightOf(b.tracing.box) - heightOf(a.tracing.box))) {
    const [w, h] = [widthOf(piece.tracing.box), heightOf(piece.tracing.box) + CAPTION]
    if (x > 0 && x + w > window.width) [x, y, row] = [0, y + row + GAP, 0]
    if (y + h > window.height) {
      sheets.push([])
      ;[x, y, row] = [0, 0, 0]
    }
    sheets.at(-1)!.push({ piece, at: [x, y] })
    x += Math.max(w, 60) + GAP
    row = Math.max(row, h)
  }
  return sheets
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
        textShape([at[0], at[1] + 3], caption, { size: 3.4, weight: 'bold' }),
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
      title: `${drawing.title}: ${caption}, ${times}`,
      mirrored: set.mirrored ? 'mirrored' : 'as stitched',
      names,
      count: [i + 1, plan.places.length],
    }),
  )
}
