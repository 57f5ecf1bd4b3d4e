import { escapeXml } from '../export/escape.ts'
import { numberText } from '../export/number-text.ts'
import { pathData } from '../export/path-data.ts'
import type { Point } from '../geometry/point.ts'
import { type Box, boundsOf, flattenStroke, type Stroke } from '../geometry/stroke.ts'
import type { Figure } from './figure.ts'

/** Width of the thread and of a seam, as a part of the width of what is shown. */
const THREAD = 0.0034
const SEAM = 0.0022
/** Decimals of mm. */
const DECIMALS = 2

/**
 * A figure as an SVG element that stands in a web page or in another drawing. Its colours are the page's: classes `thread`
 * and `seam`.
 *
 * @param attributes  of the element, beside its viewBox
 */
export function figureSvg(figure: Figure, attributes: string): string {
  const { minX, minY, maxX, maxY } = figure.view
  const box = [minX, minY, maxX - minX, maxY - minY].map((v) => numberText(v, DECIMALS)).join(' ')
  const width = maxX - minX
  const seams = figure.seams.map(outlineData).join('')
  const thread = figure.strokes
    .filter((stroke) => isSeen(stroke, figure.view))
    .map((stroke) => pathData(stroke, DECIMALS))
    .join('')
  return [
    `<svg ${attributes} viewBox="${box}">`,
    `<title>${escapeXml(figure.label)}</title>`,
    `<path class="seam" stroke-width="${numberText(width * SEAM, 3)}" d="${seams}"/>`,
    `<path class="thread" stroke-width="${numberText(width * THREAD, 3)}" d="${thread}"/>`,
    '</svg>',
  ].join('')
}

/** Two points are a line, more an outline. */
function outlineData(points: readonly Point[]): string {
  const text = points.map((p) => p.map((v) => numberText(v, DECIMALS)).join(' ')).join('L')
  return `M${text}${points.length > 2 ? 'Z' : ''}`
}

/** Whether any of a stroke lies in what is shown. */
function isSeen(stroke: Stroke, view: Box): boolean {
  const box = boundsOf(flattenStroke(stroke, 1))
  return box.minX <= view.maxX && box.maxX >= view.minX && box.minY <= view.maxY && box.maxY >= view.minY
}
