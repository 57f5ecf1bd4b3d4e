import type { Drawing } from '../drawing.ts'
import { LABELS } from '../labels.ts'
import { type Page, type Shape, textShape } from '../shape/shape.ts'
import { shifted } from '../shape/shifted.ts'
import { fitText } from '../shape/text-width.ts'
import type { Paper } from '../sheets/paper.ts'
import { type DrawnFigure, drawFigure } from './figure-shapes.ts'
import { orderFigures } from './order-figures.ts'

const MARGIN = 12
const GUTTER = 7
const HEAD = 15

/** How the figures are laid out. */
export interface OrderLayout {
  /** Figures side by side with their words below, or `fit`: what needs the fewest pages and draws large. */
  readonly columns: number | 'fit'
  /** A page, or one page as tall as needed. */
  readonly paper: Paper | { readonly width: number; readonly height: 'as needed' }
}

/** One way to lay figures out. */
interface Arrangement {
  readonly columns: number
  readonly words: 'below' | 'beside'
  /** How tall pictures may be, as a share of their width. */
  readonly tallest: number
}

const below = (columns: number): Arrangement[] =>
  [0.85, 0.75, 0.66, 0.58].map((tallest) => ({ columns, words: 'below', tallest }))
const beside = [0.85, 0.75, 0.66].map((tallest): Arrangement => ({ columns: 1, words: 'beside', tallest }))

/**
 * The figures row by row, as many rows on a page as fit, each row as tall as its tallest figure. Of the arrangements
 * that need the fewest pages, the one with the largest pictures.
 */
export function orderPages(drawing: Drawing, { columns, paper }: OrderLayout): Page[] {
  const figures = orderFigures(drawing)
  const arrangements = columns === 'fit' ? [...beside, ...below(2)] : below(columns)
  const choices = arrangements.map((arrangement) => {
    const width = (paper.width - 2 * MARGIN - (arrangement.columns - 1) * GUTTER) / arrangement.columns
    const drawn = figures.map((f) => drawFigure(drawing.quilt, f, { ...arrangement, width }))
    return pagesOf(drawing, rowsOf(drawn, arrangement.columns), paper)
  })
  return choices.reduce((best, pages) => (pages.length < best.length ? pages : best))
}

function pagesOf(
  drawing: Drawing,
  rows: readonly (readonly DrawnFigure[])[],
  paper: OrderLayout['paper'],
): Page[] {
  const floor = paper.height === 'as needed' ? Infinity : paper.height - MARGIN
  const pages: Shape[][] = [heading(drawing, paper.width)]
  let y = MARGIN + HEAD
  for (const row of rows) {
    const height = Math.max(...row.map((f) => f.height))
    if (y + height > floor && y > MARGIN + HEAD) {
      pages.push([])
      y = MARGIN
    }
    row.forEach((figure, i) => {
      pages.at(-1)!.push(...shifted(figure.shapes, [MARGIN + i * (figure.width + GUTTER), y]))
    })
    y += height + GUTTER
  }
  const height = paper.height === 'as needed' ? y : paper.height
  return pages.map((shapes, i) => ({
    width: paper.width,
    height,
    shapes: pages.length > 1 ? [...shapes, pageNumber(paper.width, height, [i + 1, pages.length])] : shapes,
  }))
}

function rowsOf(figures: readonly DrawnFigure[], columns: number): DrawnFigure[][] {
  const rows: DrawnFigure[][] = []
  for (let i = 0; i < figures.length; i += columns) rows.push(figures.slice(i, i + columns))
  return rows
}

const TITLE = { size: 6, weight: 'bold' } as const

function heading(drawing: Drawing, width: number): Shape[] {
  return [
    textShape([MARGIN, MARGIN + 5], fitText(drawing.title, width - 2 * MARGIN, TITLE), TITLE),
    textShape([MARGIN, MARGIN + 11], `${LABELS.order.heading}. ${LABELS.order.legend}`, {
      size: 3,
      colour: '#555555',
    }),
  ]
}

const pageNumber = (width: number, height: number, [page, of]: readonly [number, number]): Shape =>
  textShape([width - MARGIN, height - 8], LABELS.order.page(page, of), {
    size: 2.8,
    anchor: 'end',
    colour: '#555555',
  })
