import type { Point } from '../../geometry/point.ts'
import { escapeXml } from '../escape.ts'
import { numberText } from '../number-text.ts'
import type { Page, Pen, Shape } from './shape.ts'
import { textWidth } from './text-width.ts'

/** Decimals of mm: 0.001 mm. */
const number = (v: number): string => numberText(v, 3)

/**
 * A page as an SVG document in mm; it may stand in a web page as it is.
 *
 * @param caption  what the picture shows, for those who can't see it
 */
export function pageSvg(page: Page, caption: string): string {
  const [w, h] = [number(page.width), number(page.height)]
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}" role="img" font-family="Helvetica, Arial, sans-serif">`,
    `<title>${escapeXml(caption)}</title>`,
    ...page.shapes.map(shapeSvg),
    '</svg>',
    '',
  ].join('\n')
}

function shapeSvg(shape: Shape): string {
  switch (shape.kind) {
    case 'lines':
      if (shape.polylines.length === 0) return ''
      return `<path d="${shape.polylines.map(data).join('')}" fill="none"${penSvg(shape.pen)}/>`
    case 'area':
      return `<path d="${data(shape.points)}Z"${fillSvg(shape.fill)}${penSvg(shape.pen)}/>`
    case 'disc': {
      const [x, y] = shape.centre.map(number)
      return `<circle cx="${x}" cy="${y}" r="${number(shape.radius)}"${fillSvg(shape.fill)}${penSvg(shape.pen)}/>`
    }
    case 'text':
      return textSvg(shape)
    case 'layer':
      return `<g data-layer="${escapeXml(shape.name)}">${shape.shapes.map(shapeSvg).join('')}</g>`
    case 'clip': {
      const { minX, minY, maxX, maxY } = shape.box
      const [x, y, w, h] = [minX, minY, maxX - minX, maxY - minY].map(number)
      const inside = shape.shapes.map(shapeSvg).join('')
      return `<svg x="${x}" y="${y}" width="${w}" height="${h}" viewBox="${x} ${y} ${w} ${h}" overflow="hidden">${inside}</svg>`
    }
  }
}

/** The width is stated, so that a font wider than Helvetica is squeezed and nothing runs over. */
function textSvg(shape: Extract<Shape, { kind: 'text' }>): string {
  const [x, y] = shape.at.map(number)
  const turn = shape.turn ? ` transform="rotate(${number((shape.turn * 180) / Math.PI)} ${x} ${y})"` : ''
  const weight = shape.weight === 'bold' ? ' font-weight="bold"' : ''
  const anchor = shape.anchor === 'start' ? '' : ` text-anchor="${shape.anchor}"`
  const width = number(textWidth(shape.text, shape))
  return `<text x="${x}" y="${y}" font-size="${number(shape.size)}" textLength="${width}" lengthAdjust="spacingAndGlyphs" fill="${shape.colour}"${anchor}${weight}${turn}>${escapeXml(shape.text)}</text>`
}

const data = (points: readonly Point[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${number(x)} ${number(y)}`).join('')

const fillSvg = (fill: string | undefined): string => ` fill="${fill ?? 'none'}"`

function penSvg(pen: Pen | undefined): string {
  if (!pen) return ''
  const dash = pen.dash ? ` stroke-dasharray="${pen.dash.map(number).join(' ')}"` : ''
  return ` stroke="${pen.colour}" stroke-width="${number(pen.width)}" stroke-linejoin="round" stroke-linecap="round"${dash}`
}
