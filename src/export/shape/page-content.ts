import { compose, scaling } from '../../geometry/affine.ts'
import type { Point } from '../../geometry/point.ts'
import { MM_PER } from '../../units.ts'
import { winAnsiText } from '../escape.ts'
import { flipY } from '../flip.ts'
import { numberText } from '../number-text.ts'
import type { Colour, Page, Pen, Shape } from './shape.ts'
import { textWidth } from './text-width.ts'

/** Decimals of mm: 0.005 mm at most. */
const mm = (v: number): string => numberText(v, 2)
const factor = (v: number): string => numberText(v, 6)

/** Magic number of a circle of four cubics: 4/3 (sqrt(2) - 1); strays by 0.03 percent of the radius. */
const ROUND = 0.5522847498

/** Names of the fonts in a page's resources. */
export const FONT_NAMES = { regular: 'F0', bold: 'F1' } as const

/**
 * The content stream of a page: the page's mm, y down, are mapped onto points, y up, once at its head.
 *
 * @param layers  names of the layers; the one at index i is the property `/Li`
 * @source ISO 32000-1: 8.3 (matrices), 8.5 (paths), 9.4 (text), 14.6 (marked content)
 */
export function pageContent(page: Page, layers: readonly string[]): string {
  const { a, b, c, d, e, f } = compose(flipY(page.height), scaling(1 / MM_PER.pt))
  const out: string[] = [`${[a, b, c, d, e, f].map(factor).join(' ')} cm`, '1 J 1 j']
  for (const shape of page.shapes) draw(shape, layers, out)
  return out.join('\n')
}

function draw(shape: Shape, layers: readonly string[], out: string[]): void {
  switch (shape.kind) {
    case 'lines':
      if (shape.polylines.length === 0) return
      usePen(shape.pen, out)
      for (const polyline of shape.polylines) trace(polyline, out)
      out.push('S')
      return
    case 'area':
      paint(
        shape,
        () => {
          trace(shape.points, out)
          out.push('h')
        },
        out,
      )
      return
    case 'disc':
      paint(shape, () => traceCircle(shape.centre, shape.radius, out), out)
      return
    case 'text':
      drawText(shape, out)
      return
    case 'layer':
      out.push(`/OC /L${layers.indexOf(shape.name)} BDC`)
      for (const inner of shape.shapes) draw(inner, layers, out)
      out.push('EMC')
      return
    case 'clip': {
      const { minX, minY, maxX, maxY } = shape.box
      out.push(`q ${mm(minX)} ${mm(minY)} ${mm(maxX - minX)} ${mm(maxY - minY)} re W n`)
      for (const inner of shape.shapes) draw(inner, layers, out)
      out.push('Q')
    }
  }
}

function trace(points: readonly Point[], out: string[]): void {
  points.forEach(([x, y], i) => {
    out.push(`${mm(x)} ${mm(y)} ${i === 0 ? 'm' : 'l'}`)
  })
}

function paint(look: { fill?: Colour; pen?: Pen }, path: () => void, out: string[]): void {
  if (look.fill) out.push(`${colour(look.fill)} rg`)
  if (look.pen) usePen(look.pen, out)
  path()
  out.push(look.fill && look.pen ? 'B' : look.fill ? 'f' : 'S')
}

function usePen(pen: Pen, out: string[]): void {
  out.push(`${colour(pen.colour)} RG ${mm(pen.width)} w [${(pen.dash ?? []).map(mm).join(' ')}] 0 d`)
}

const colour = (hex: Colour): string =>
  [1, 3, 5].map((i) => numberText(Number.parseInt(hex.slice(i, i + 2), 16) / 255, 3)).join(' ')

function traceCircle([x, y]: Point, r: number, out: string[]): void {
  const k = r * ROUND
  const curve = (...points: [number, number, number, number, number, number]) =>
    out.push(`${points.map(mm).join(' ')} c`)
  out.push(`${mm(x + r)} ${mm(y)} m`)
  curve(x + r, y + k, x + k, y + r, x, y + r)
  curve(x - k, y + r, x - r, y + k, x - r, y)
  curve(x - r, y - k, x - k, y - r, x, y - r)
  curve(x + k, y - r, x + r, y - k, x + r, y)
  out.push('h')
}

/** The text's own y axis is turned back, so that letters stand upright in a frame with y down. */
function drawText(shape: Extract<Shape, { kind: 'text' }>, out: string[]): void {
  const text = winAnsiText(shape.text)
  const turn = shape.turn ?? 0
  const [c, s] = [Math.cos(turn), Math.sin(turn)]
  const back = { start: 0, middle: 0.5, end: 1 }[shape.anchor] * textWidth(text, shape)
  const [x, y] = [shape.at[0] - c * back, shape.at[1] - s * back]
  const place = `${[c, s, s, -c].map(factor).join(' ')} ${mm(x)} ${mm(y)} Tm`
  out.push(
    `BT ${colour(shape.colour)} rg /${FONT_NAMES[shape.weight]} ${mm(shape.size)} Tf ${place} (${stringOf(text)}) Tj ET`,
  )
}

/** A literal string: brackets and backslashes escaped, what isn't ASCII in octal of WinAnsi. */
function stringOf(text: string): string {
  let written = ''
  for (const character of text) {
    if ('()\\'.includes(character)) written += `\\${character}`
    else if (character <= '~') written += character
    else written += `\\${winAnsiCode(character).toString(8).padStart(3, '0')}`
  }
  return written
}

/** Codes 128 to 159 of WinAnsi, in order; a blank stands for an unused one. @source ISO 32000-1, Annex D.2 */
const UPPER =
  '\u20ac \u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152 \u017d  \u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153 \u017e\u0178'

function winAnsiCode(character: string): number {
  const upper = UPPER.indexOf(character)
  return upper >= 0 ? 128 + upper : character.charCodeAt(0)
}
