import { escapeXml } from '../export/escape.ts'
import { numberText } from '../export/number-text.ts'
import type { Figure, GalleryEntry } from './figure.ts'
import { figureSvg } from './figure-svg.ts'
import { figureWords } from './measure-words.ts'

/** Breadth of a figure, of what is between figures, and of the lines of text, in user units. */
const BREADTH = 600
const GAP = 24
const LINE = 26

const STYLE =
  '.seam{fill:none;stroke:#c3a98a}.thread{fill:none;stroke:#7d1f19;stroke-linejoin:round;stroke-linecap:round}text{font-family:"DejaVu Sans",sans-serif;fill:#2a2420}.soft{fill:#655a4e}'

/** A figure placed on a sheet, and where its bottom lies. */
interface Placed {
  readonly svg: string
  readonly bottom: number
}

/** One filler at all its sizes as an SVG document, two figures beside each other: to be made a PNG. */
export function entrySheet(entry: GalleryEntry): string {
  const title = `<text x="${GAP}" y="${GAP + 22}" font-size="26">${escapeXml(entry.title)}<tspan class="soft" font-size="18" dx="12">${escapeXml(entry.suits)}</tspan></text>`
  let top = GAP + 44
  const rows: string[] = [title]
  for (let i = 0; i < entry.figures.length; i += 2) {
    const row = entry.figures.slice(i, i + 2).map((figure, j) => placeFigure(figure, columnAt(j), top))
    rows.push(...row.map(({ svg }) => svg))
    top = Math.max(...row.map(({ bottom }) => bottom)) + GAP
  }
  return sheet(rows, { width: 2 * BREADTH + 3 * GAP, height: top })
}

/** Many fillers on one sheet, each once, with its name: at its second size. */
export function overviewSheet(entries: readonly GalleryEntry[], columns: number): string {
  let top = GAP
  const rows: string[] = []
  for (let i = 0; i < entries.length; i += columns) {
    const row = entries.slice(i, i + columns).map(({ name, figures }, j) => {
      const figure = figures[1] ?? figures[0]!
      const placed = placeSvg(figure, columnAt(j), top)
      const words = text(name, { x: columnAt(j), y: placed.bottom + LINE, size: 22 })
      return { svg: placed.svg + words, bottom: placed.bottom + LINE }
    })
    rows.push(...row.map(({ svg }) => svg))
    top = Math.max(...row.map(({ bottom }) => bottom)) + GAP
  }
  return sheet(rows, { width: columns * (BREADTH + GAP) + GAP, height: top })
}

const columnAt = (column: number): number => GAP + column * (BREADTH + GAP)

function placeFigure(figure: Figure, x: number, top: number): Placed {
  const placed = placeSvg(figure, x, top)
  const words = [
    text(figure.label, { x, y: placed.bottom + LINE, size: 18 }),
    text(figureWords(figure.measures), { x, y: placed.bottom + 1.9 * LINE, size: 15 }),
  ]
  return { svg: placed.svg + words.join(''), bottom: placed.bottom + 2 * LINE }
}

function placeSvg(figure: Figure, x: number, top: number): Placed {
  const { minX, minY, maxX, maxY } = figure.view
  const height = (BREADTH * (maxY - minY)) / (maxX - minX)
  const attributes = `x="${x}" y="${numberText(top, 2)}" width="${BREADTH}" height="${numberText(height, 2)}"`
  return { svg: figureSvg(figure, attributes), bottom: top + height }
}

const text = (words: string, { x, y, size }: { x: number; y: number; size: number }): string =>
  `<text x="${x}" y="${numberText(y, 2)}" font-size="${size}">${escapeXml(words)}</text>`

function sheet(content: readonly string[], { width, height }: { width: number; height: number }): string {
  const [w, h] = [width, height].map((v) => numberText(v, 2))
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}" viewBox="0 0 ${w} ${h}">`,
    `<style>${STYLE}</style>`,
    `<rect width="${w}" height="${h}" fill="#fbf7ee"/>`,
    ...content,
    '</svg>',
    '',
  ].join('\n')
}
