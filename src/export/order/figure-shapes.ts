import type { Point } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import { boxShape, type Shape, textShape } from '../shape/shape.ts'
import { wrapToWidth } from '../shape/text-width.ts'
import { FRAME, PLATE } from './look.ts'
import type { OrderFigure } from './order-figures.ts'
import { drawPicture } from './picture.ts'

/** Text of the steps, mm. */
const TEXT = { size: 2.9, weight: 'regular' } as const
const LEADING = 3.9
const TITLE_HEIGHT = 14

/** A figure drawn `width` mm wide, from the top left corner, with how much room it took. */
export interface DrawnFigure {
  readonly shapes: readonly Shape[]
  readonly width: number
  readonly height: number
}

/** How a figure is to be drawn. */
export interface FigureSize {
  /** mm */
  readonly width: number
  /** A picture is never taller than this share of its width. */
  readonly tallest: number
  /** Where the words stand. */
  readonly words: 'below' | 'beside'
}

/** With the words beside it, a picture takes this share of the width. */
const PICTURE_SHARE = 0.58
const GAP = 5

/** Title and a small map of the quilt, the picture, and the steps in words below or beside it. */
export function drawFigure(quilt: Quilt, figure: OrderFigure, size: FigureSize): DrawnFigure {
  const { width, words } = size
  const picture = drawFigurePicture(quilt, figure, {
    ...size,
    width: words === 'below' ? width : width * PICTURE_SHARE,
  })
  const text =
    words === 'below'
      ? stepText(figure, [0, picture.height + GAP - 0.5], width)
      : stepText(figure, [picture.width + GAP, 6.5], width - picture.width - GAP)
  const title = [
    textShape([0, 6.5], figure.title, { size: 4.4, weight: 'bold' }),
    textShape([0, 11.4], figure.summary, { size: 2.9, colour: '#555555' }),
  ]
  return {
    shapes: [...title, ...picture.shapes, ...text.shapes],
    width,
    height: Math.max(picture.height, text.below),
  }
}

function pictureHeight(view: Box, { width, tallest }: Pick<FigureSize, 'width' | 'tallest'>): number {
  const aspect = (view.maxY - view.minY) / (view.maxX - view.minX)
  return width * Math.min(tallest, Math.max(0.45, aspect))
}

function stepText({ now }: OrderFigure, [x, top]: Point, width: number): { shapes: Shape[]; below: number } {
  const shapes: Shape[] = []
  let y = top
  now.forEach((step, i) => {
    shapes.push(
      textShape([x + 4.2, y], `${i + 1}`, { ...TEXT, weight: 'bold', anchor: 'end', colour: PLATE }),
    )
    for (const line of wrapToWidth(step.words, width - 6, TEXT)) {
      shapes.push(textShape([x + 6, y], line, TEXT))
      y += LEADING
    }
    y += 0.5
  })
  return { shapes, below: y - LEADING + 2 }
}

/** The picture alone, with the small map above it at the right, as tall as it needs. */
export function drawFigurePicture(
  quilt: Quilt,
  figure: OrderFigure,
  size: Pick<FigureSize, 'width' | 'tallest'>,
): DrawnFigure {
  const { width } = size
  const bottom = TITLE_HEIGHT + pictureHeight(figure.view, size)
  const frame = { minX: 0, minY: TITLE_HEIGHT, maxX: width, maxY: bottom }
  return {
    shapes: [...smallMap(quilt, figure.view, width), ...drawPicture(quilt, figure, frame)],
    width,
    height: bottom + 0.5,
  }
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
    { kind: 'area', points: quilt.edge.map(place), fill: '#f3efe7', pen: FRAME },
    boxShape({ minX, minY, maxX, maxY }, { fill: '#9db7d1', pen: { colour: PLATE, width: 0.2 } }),
    { kind: 'area', points: quilt.rings[0]!.map(place), pen: { colour: '#8f8f8f', width: 0.15 } },
  ]
}
