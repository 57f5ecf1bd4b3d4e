import type { Point } from '../../geometry/point.ts'
import { LABELS } from '../labels.ts'
import { boxShape, type Page, type Shape, textShape } from '../shape/shape.ts'
import { shifted } from '../shape/shifted.ts'
import { fitText, wrapToWidth } from '../shape/text-width.ts'
import { GREY, LAYERS, PENS } from './look.ts'
import type { Paper } from './paper.ts'

/** What the first page says. */
export interface CoverText {
  readonly title: string
  readonly heading: string
  readonly facts: string
  readonly steps: readonly string[]
  /** Below the map, if anything is to be said there. */
  readonly footnote?: string
}

/** Draws the page map into a box of this size, from its top left corner. */
export type MapDrawer = (size: Paper) => Shape[]

/** Least white round the cover's text, mm. */
const MARGIN = 14

const TITLE = { size: 7, weight: 'bold' } as const

/** The first page: test squares, what to do, and the map of the sheets if there is one. */
export function coverPage(paper: Paper, text: CoverText, map: MapDrawer | undefined): Page {
  const width = Math.min(paper.width, 420) - 2 * MARGIN
  const top = MARGIN + 25
  const guide = guidance([MARGIN + 92, top + 8], text.steps, width - 97)
  const below = Math.max(guide.below + 1, top + 60)
  const shapes: Shape[] = [
    textShape([MARGIN, MARGIN + 6], fitText(text.title, width, TITLE), TITLE),
    textShape([MARGIN, MARGIN + 12.5], text.heading, { size: 4.2 }),
    ...paragraph([MARGIN, MARGIN + 19], text.facts, { width, size: 3.2 }).shapes,
    boxShape({ minX: MARGIN, minY: top, maxX: MARGIN + width, maxY: below }, { pen: PENS.thin }),
    ...testSquares([MARGIN + 5, top + 5]),
    ...guide.shapes,
  ]
  const y = below + 8
  if (map) {
    shapes.push(textShape([MARGIN, y], LABELS.sheets.mapHeading, { size: 4.2, weight: 'bold' }))
    const room = { width, height: paper.height - MARGIN - (y + 4) - 6 }
    shapes.push(...shifted(map(room), [MARGIN, y + 4]))
    if (text.footnote)
      shapes.push(textShape([MARGIN, paper.height - MARGIN], text.footnote, { size: 3, colour: GREY }))
  }
  return { ...paper, shapes: [{ kind: 'layer', name: LAYERS.words, shapes }] }
}

interface Set {
  readonly shapes: Shape[]
  /** The next baseline. */
  readonly below: number
}

/** Text from a first baseline downward. */
function paragraph(at: Point, text: string, style: { width: number; size: number }): Set {
  const lines = wrapToWidth(text, style.width, { size: style.size, weight: 'regular' })
  const leading = style.size * 1.35
  const shapes = lines.map((words, i) => textShape([at[0], at[1] + i * leading], words, { size: style.size }))
  return { shapes, below: at[1] + lines.length * leading }
}

/** Five centimetres and one inch, side by side. */
function testSquares([x, y]: Point): Shape[] {
  const square = (left: number, side: number, name: string): Shape[] => [
    boxShape({ minX: left, minY: y, maxX: left + side, maxY: y + side }, { pen: PENS.ink }),
    textShape([left + side / 2, y + side / 2 + 1.6], name, { size: 4.5, anchor: 'middle' }),
  ]
  return [...square(x, 50, LABELS.sheets.fiveCm), ...square(x + 55, 25.4, LABELS.sheets.oneInch)]
}

/** How to print, and what to do then. */
function guidance(at: Point, steps: readonly string[], width: number): Set {
  const say = LABELS.sheets
  const heading = textShape(at, say.testHeading, { size: 4.2, weight: 'bold' })
  const warning = paragraph([at[0], at[1] + 6.5], say.testText, { width, size: 3.4 })
  const shapes = [heading, ...warning.shapes]
  let below = warning.below + 3
  steps.forEach((step, i) => {
    shapes.push(textShape([at[0], below], `${i + 1}.`, { size: 3.4, weight: 'bold' }))
    const set = paragraph([at[0] + 6, below], step, { width: width - 6, size: 3.4 })
    shapes.push(...set.shapes)
    below = set.below + 1.6
  })
  return { shapes, below }
}
