import type { Drawing, Swatch } from '../drawing.ts'
import { escapeXml } from '../escape.ts'
import { LABELS } from '../labels.ts'
import { numberText } from '../number-text.ts'
import { INK, PAPER } from './look.ts'

/** How much larger than life the thread is drawn, so that it can be judged. */
const ENLARGED = 3
/** Thickness of thread on cloth, mm. */
const THREAD = 0.8
/** The fewest tiles that the card's width is shared by: a lone band's tile should not be as wide as the quilt. */
const FEWEST = 5
/** The most tiles in a row. */
const MOST = 12

interface Tile {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/** The thread on a patch of each band's cloth, in rows under the quilt. `mark` is the size of a mark, mm. */
export function swatchCard(
  drawing: Drawing,
  mark: number,
): { readonly svg: string; readonly heightMm: number } {
  const { swatches = [], quilt, lines } = drawing
  if (swatches.length === 0) return { svg: '', heightMm: 0 }
  const columns = Math.min(MOST, Math.max(FEWEST, swatches.length))
  const gap = mark
  const width = (quilt.widthMm - gap * (columns - 1)) / columns
  const height = Math.min(width * 0.7, mark * 9)
  const row = height + mark * 5
  const top = quilt.heightMm + mark * 4
  const thread = lines[0]?.thread ?? INK
  const tiles = swatches.map((swatch, i) => {
    const [column, line] = [i % columns, Math.floor(i / columns)]
    const tile = { x: column * (width + gap), y: top + line * row, width, height }
    return tileSvg(swatch, tile, { mark, thread })
  })
  const heightMm = mark * 4 + row * Math.ceil(swatches.length / columns)
  const n = (value: number) => numberText(value, 2)
  const svg = [
    '<g id="swatches">',
    `<rect x="0" y="${n(quilt.heightMm)}" width="${n(quilt.widthMm)}" height="${n(heightMm)}" fill="${PAPER}"/>`,
    `<text x="0" y="${n(quilt.heightMm + mark * 2.6)}" font-size="${n(mark * 1.4)}" fill="${INK}">${escapeXml(LABELS.picture.swatches(ENLARGED))}</text>`,
    ...tiles,
    '</g>',
  ].join('\n')
  return { svg, heightMm }
}

function tileSvg(
  { band, fabrics, look }: Swatch,
  tile: Tile,
  { mark, thread }: { readonly mark: number; readonly thread: string },
): string {
  const n = (value: number) => numberText(value, 2)
  const { x, y, width, height } = tile
  const words = (text: string, down: number, weight: string) =>
    `<text x="${n(x)}" y="${n(y + height + down)}" font-size="${n(fitted(text, width, mark * 1.3))}" font-weight="${weight}" fill="${INK}">${escapeXml(text)}</text>`
  return [
    stripes(fabrics, tile),
    `<path d="${wave(tile)}" fill="none" stroke="${escapeXml(thread)}" stroke-width="${n(THREAD * ENLARGED)}" stroke-linecap="round"/>`,
    `<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" fill="none" stroke="${INK}" stroke-opacity="0.4" stroke-width="0.6"/>`,
    words(band, mark * 1.6, 'bold'),
    words(look, mark * 3.2, 'normal'),
  ].join('')
}

/** A size at which the text is no wider than its tile; letters are taken to be 0.6 of their size wide. */
const fitted = (text: string, width: number, size: number): number =>
  Math.min(size, width / Math.max(1, text.length * 0.6))

/** The colours of a print side by side, each as wide as its share of them all. */
function stripes(fabrics: Swatch['fabrics'], { x, y, width, height }: Tile): string {
  const n = (value: number) => numberText(value, 2)
  const total = fabrics.reduce((sum, { share }) => sum + share, 0) || 1
  let from = x
  return fabrics
    .map(({ colour, share }) => {
      const wide = (width * share) / total
      const rect = `<rect x="${n(from)}" y="${n(y)}" width="${n(wide)}" height="${n(height)}" fill="${escapeXml(colour)}"/>`
      from += wide
      return rect
    })
    .join('')
}

/** Two rows of quilting across the tile: waves, so that the thread is seen in every direction. */
function wave({ x, y, width, height }: Tile): string {
  const n = (value: number) => numberText(value, 2)
  const waves = 4
  const step = width / waves
  return [0.32, 0.68]
    .map((level) => {
      const middle = y + height * level
      const swing = height * 0.3
      const steps = Array.from({ length: waves }, (_, i) => {
        const at = x + i * step
        return `C${n(at + step / 3)} ${n(middle - swing)} ${n(at + (2 * step) / 3)} ${n(middle + swing)} ${n(at + step)} ${n(middle)}`
      })
      return `M${n(x)} ${n(middle)}${steps.join('')}`
    })
    .join('')
}
