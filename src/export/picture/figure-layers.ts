import type { Point } from '../../geometry/point.ts'
import { boundsOf, flattenStroke } from '../../geometry/stroke.ts'
import { type AvoidedRegion, outlineOf, outsideOf } from '../../quilt/avoided-region.ts'
import type { Drawing, GapMark } from '../drawing.ts'
import { escapeXml } from '../escape.ts'
import { LABELS, lengthText } from '../labels.ts'
import { numberText } from '../number-text.ts'
import { pathData } from '../path-data.ts'
import { GAP, INK, PAPER, TOO_LARGE } from './look.ts'

const n = (value: number): string => numberText(value, 2)

/** Bobbins seen from above, each with its number, where they are changed. `mark` is the size of a mark, mm. */
export function bobbinLayer({ bobbinChanges = [] }: Drawing, mark: number): string {
  const bobbins = bobbinChanges.map(([x, y], i) =>
    [
      `<g class="bobbin"><title>${escapeXml(LABELS.picture.bobbin(i + 1))}</title>`,
      disc([x, y], mark * 0.95, `fill="${INK}" stroke="${PAPER}" stroke-width="${n(mark / 7)}"`),
      disc([x, y], mark * 0.68, `fill="${PAPER}"`),
      `<text x="${n(x)}" y="${n(y + mark * 0.35)}" font-size="${n(mark)}" font-weight="bold" text-anchor="middle" fill="${INK}">${i + 1}</text>`,
      '</g>',
    ].join(''),
  )
  return `<g id="bobbin-changes">${bobbins.join('\n')}</g>`
}

/** Regions that no stitching enters: lightened, with their edge and, where there is room, their name. */
export function regionLayer({ quilt: { regions = [] } }: Drawing, mark: number): string[] {
  if (regions.length === 0) return []
  const drawn = regions.map((region) => {
    const { minX, maxX, minY, maxY } = boundsOf(flattenStroke(outlineOf(region), 1))
    const name = escapeXml(region.name)
    const [x, y] = region.kind === 'circle' ? region.centre : innermostOf(region)
    const size = mark * 1.15
    const hasRoom = maxX - minX > size * 0.7 * region.name.length && maxY - minY > 2 * size
    return [
      `<g class="region"><title>${name}</title>`,
      `<path d="${pathData(outlineOf(region), 2)}Z" fill="${PAPER}" fill-opacity="0.55" stroke="${INK}" stroke-opacity="0.7" stroke-width="${n(mark / 12)}"/>`,
      hasRoom
        ? `<text x="${n(x)}" y="${n(y + size * 0.35)}" font-size="${n(size)}" text-anchor="middle" fill="${INK}">${name}</text>`
        : '',
      '</g>',
    ].join('')
  })
  return ['<g id="regions">', ...drawn, '</g>']
}

/** How many places across and down are looked at to find the middle of a polygon. */
const LOOKS = 24

/** The place in a polygon that lies farthest from its edge, about. */
function innermostOf(region: AvoidedRegion): Point {
  const { minX, maxX, minY, maxY } = boundsOf(flattenStroke(outlineOf(region), 1))
  const outside = outsideOf(region)
  let best: Point = [(minX + maxX) / 2, (minY + maxY) / 2]
  for (let i = 1; i < LOOKS; i++)
    for (let j = 1; j < LOOKS; j++) {
      const p: Point = [minX + ((maxX - minX) * i) / LOOKS, minY + ((maxY - minY) * j) / LOOKS]
      if (outside(p) < outside(best)) best = p
    }
  return best
}

const disc = ([x, y]: Point, radius: number, look: string): string =>
  `<circle cx="${n(x)}" cy="${n(y)}" r="${n(radius)}" ${look}/>`

/** The largest places without stitching, each with its size if there is room for it. */
export function gapLayer({ gaps = [], units }: Drawing, mark: number): string {
  const drawn = gaps.map((gap) => {
    const colour = gap.isTooLarge ? TOO_LARGE : GAP
    const name = LABELS.picture.gap(gap.shape, gap.band, lengthText(gap.sizeMm, units))
    const dashes = `stroke-dasharray="${n(mark / 2)} ${n(mark / 3.5)}"`
    return [
      `<g class="gap"><title>${escapeXml(name)}</title>`,
      outline(gap, `fill="none" stroke="${PAPER}" stroke-opacity="0.8" stroke-width="${n(mark / 4)}"`),
      outline(gap, `fill="none" stroke="${colour}" stroke-width="${n(mark / 8)}" ${dashes}`),
      gap.band === undefined && gap.sizeMm > 12 * mark ? sizeLabel(gap, name, { mark, colour }) : '',
      '</g>',
    ].join('')
  })
  return `<g id="gaps">${drawn.join('\n')}</g>`
}

function outline({ shape, at: [x, y], sizeMm }: GapMark, look: string): string {
  const half = sizeMm / 2
  return shape === 'circle'
    ? disc([x, y], half, look)
    : `<rect x="${n(x - half)}" y="${n(y - half)}" width="${n(sizeMm)}" height="${n(sizeMm)}" ${look}/>`
}

/** The words stand inside at the top: the circle's above the square's. */
function sizeLabel(
  { shape, at: [x, y], sizeMm }: GapMark,
  text: string,
  { mark, colour }: { readonly mark: number; readonly colour: string },
): string {
  const down = -sizeMm / 2 + mark * (shape === 'circle' ? 3.2 : 5.2)
  return `<text x="${n(x)}" y="${n(y + down)}" font-size="${n(mark * 1.25)}" text-anchor="middle" fill="${colour}" stroke="${PAPER}" stroke-width="${n(mark / 3)}" paint-order="stroke">${escapeXml(text)}</text>`
}
