import { distance, type Point } from '../geometry/point.ts'
import { directionAt, pointAt, segmentLength } from '../geometry/segment.ts'
import { boundsOf, eachSegment, endOf, type Stroke } from '../geometry/stroke.ts'
import type { Line, LinePart } from '../stitch/line.ts'
import type { Drawing } from './drawing.ts'
import { escapeXml } from './escape.ts'
import { defineExporter } from './exporter.ts'
import { numberText } from './number-text.ts'
import { pathData, segmentsData } from './path-data.ts'
import { bobbinLayer, gapLayer, regionLayer } from './picture/figure-layers.ts'
import { INK, isLight, PAPER } from './picture/look.ts'
import { swatchCard } from './picture/swatch-card.ts'

/** The marks keep clear of usual fabric colours. */
const START = '#0f7b5f'
const END = '#a3335c'
const TRAVEL = '#d9480f'

/**
 * The plan as a picture, true to scale: fabrics, seams, the line in its thread's colour, where it starts and ends, where
 * it crosses from band to band, the areas in order and the direction of travel, where the bobbin is changed, and the
 * largest places without stitching.
 */
export default defineExporter({
  title: 'Picture',
  purpose: 'picture',
  extension: 'svg',
  mediaType: 'image/svg+xml',
  unit: 'mm',
  options: {
    marks: { kind: 'toggle', label: 'Start, end, crossings, areas and arrows', default: true },
    fabrics: { kind: 'toggle', label: 'Fabrics', default: true },
    bobbins: { kind: 'toggle', label: 'Where the bobbin is changed', default: true },
    gaps: { kind: 'toggle', label: 'The largest places without stitching', default: true },
    swatch: { kind: 'toggle', label: "The thread on each band's fabric, under the quilt", default: false },
    decimals: { kind: 'count', label: 'Decimals', default: 2, min: 1, max: 4 },
  },
  write(drawing, { marks, fabrics, bobbins, gaps, swatch, decimals }) {
    const { quilt } = drawing
    const size = Math.max(quilt.widthMm, quilt.heightMm)
    const mark = Math.min(14, Math.max(4, size / 130))
    const pen: Pen = { decimals, mark, middle: [quilt.widthMm / 2, quilt.heightMm / 2] }
    const card = swatch ? swatchCard(drawing, mark) : undefined
    const [width, height] = [
      numberText(quilt.widthMm, 3),
      numberText(quilt.heightMm + (card?.heightMm ?? 0), 3),
    ]
    return [
      `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" font-family="sans-serif">`,
      `<title>${escapeXml(drawing.title)}</title>`,
      ...(fabrics ? fabricLayer(drawing) : [polygon(quilt.edge, PAPER)]),
      seamLayer(drawing),
      ...regionLayer(drawing, mark),
      ...drawing.lines.map((line, i) => lineLayer(line, { id: `line-${i + 1}`, pen })),
      ...(gaps ? [gapLayer(drawing, mark)] : []),
      ...(marks
        ? drawing.lines.flatMap((line, i) =>
            marksLayer(line, { pen, number: drawing.lines.length > 1 ? ` ${i + 1}` : '' }),
          )
        : []),
      ...(marks ? [areaLayer(drawing, pen)] : []),
      ...(bobbins ? [bobbinLayer(drawing, mark)] : []),
      ...(card ? [card.svg] : []),
      '</svg>',
      '',
    ].join('\n')
  },
})

interface Pen {
  readonly decimals: number
  /** Size of a mark, mm. */
  readonly mark: number
  /** The middle of the quilt. */
  readonly middle: Point
}

const polygon = (points: readonly Point[], fill: string, name = ''): string =>
  `<polygon points="${points.map((p) => `${numberText(p[0], 3)},${numberText(p[1], 3)}`).join(' ')}" fill="${escapeXml(fill)}">${name ? `<title>${escapeXml(name)}</title>` : ''}</polygon>`

/** Fabrics from the outside in, each ring over the one around it. */
function fabricLayer({ quilt }: Drawing): string[] {
  const bands = [...quilt.bands]
    .reverse()
    .map((band) => polygon(quilt.rings[band.index + 1]!, band.fabric, band.name))
  const patches = (quilt.patches ?? []).map(({ band, name, outline, fabric }) =>
    polygon(outline, fabric, `${quilt.bands[band]!.name}: ${name}`),
  )
  return [
    '<g id="fabrics">',
    polygon(quilt.edge, INK),
    ...bands,
    polygon(quilt.rings[0]!, quilt.centreFabric),
    ...patches,
    '</g>',
  ]
}

function seamLayer({ quilt }: Drawing): string {
  const lines = quilt.seams.map((seam) =>
    pathData(
      { start: seam.points[0]!, segments: seam.points.slice(1).map((to) => ({ kind: 'line', to })) },
      3,
    ),
  )
  return `<path id="seams" d="${lines.join('')}" fill="none" stroke="${INK}" stroke-opacity="0.28" stroke-width="0.5"/>`
}

/** The line with a faint edge, so that a blending thread can still be followed; travel lies over it, dashed. */
function lineLayer(line: Line, { id, pen }: { id: string; pen: Pen }): string {
  const [first] = line.parts
  if (!first) return ''
  const data =
    pathData({ start: first.stroke.start, segments: [] }, pen.decimals) +
    line.parts.map((part) => segmentsData(part.stroke, pen.decimals)).join('')
  const travel = line.parts
    .filter((part) => part.kind === 'travel')
    .map((part) => pathData(part.stroke, pen.decimals))
  const colour = escapeXml(line.thread)
  const common = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
  return [
    `<g id="${id}" ${common}>`,
    `<path class="edge" d="${data}" stroke="${isLight(line.thread) ? INK : PAPER}" stroke-opacity="0.35" stroke-width="1.5"/>`,
    `<path class="line" d="${data}" stroke="${colour}" stroke-width="0.8"/>`,
    travel.length > 0
      ? `<path class="travel" d="${travel.join('')}" stroke="${TRAVEL}" stroke-width="1.1" stroke-dasharray="3 2"/>`
      : '',
    '</g>',
  ].join('\n')
}

function marksLayer(line: Line, { pen, number }: { pen: Pen; number: string }): string[] {
  const [first, last] = [line.parts[0], line.parts.at(-1)]
  if (!first || !last) return []
  const crossings = line.parts.filter((part) => part.kind === 'crossing').map((part) => part.stroke.start)
  const arrows = thinOut(line.parts.flatMap(arrowsAlong), pen.mark * 6)
  return [
    `<g class="crossings" fill="${PAPER}" stroke="${INK}" stroke-width="${numberText(pen.mark / 14, 2)}">`,
    ...crossings.map((p) => circle(p, pen.mark / 5)),
    '</g>',
    `<path class="arrows" fill="${INK}" d="${arrows.map((arrow) => arrowHead(arrow, pen.mark / 3)).join('')}"/>`,
    label(first.stroke.start, 'start', { colour: START, pen, number }),
    label(endOf(last.stroke), 'end', { colour: END, pen, number }),
  ]
}

const circle = ([x, y]: Point, radius: number): string =>
  `<circle cx="${numberText(x, 2)}" cy="${numberText(y, 2)}" r="${numberText(radius, 2)}"/>`

/** A disc at the place and its name beside it, towards the middle of the quilt, the start's above the end's. */
function label(
  [x, y]: Point,
  text: 'start' | 'end',
  { colour, pen, number }: { colour: string; pen: Pen; number: string },
): string {
  const m = pen.mark
  const isLeft = x < pen.middle[0]
  const above = y < pen.middle[1] ? (text === 'start' ? 1.6 : 3.1) : text === 'start' ? -2.3 : -0.8
  return [
    `<g class="${text}">`,
    `<circle cx="${numberText(x, 2)}" cy="${numberText(y, 2)}" r="${numberText(text === 'start' ? m * 0.7 : m * 0.4, 2)}" fill="${colour}" stroke="${PAPER}" stroke-width="${numberText(m / 8, 2)}"/>`,
    `<text x="${numberText(x + (isLeft ? m : -m), 2)}" y="${numberText(y + above * m, 2)}" font-size="${numberText(m * 1.4, 2)}" text-anchor="${isLeft ? 'start' : 'end'}" fill="${colour}" stroke="${PAPER}" stroke-width="${numberText(m / 3, 2)}" paint-order="stroke">${text}${number}</text>`,
    '</g>',
  ].join('')
}

interface Arrow {
  readonly at: Point
  readonly direction: Point
}

/** Places for arrowheads on a part of the line, one every 40 mm. */
function arrowsAlong(part: LinePart): Arrow[] {
  if (part.kind !== 'fill') return []
  const spacing = 40
  const arrows: Arrow[] = []
  let next = spacing / 2
  let passed = 0
  eachSegment(part.stroke, (from, segment) => {
    const length = segmentLength(from, segment)
    while (passed + length > next) {
      const t = (next - passed) / length
      arrows.push({ at: pointAt(from, segment, t), direction: directionAt(from, segment, t) })
      next += spacing
    }
    passed += length
  })
  return arrows
}

/** Of these arrows as many, in order, as lie at least `apart` from those before: a dense filler gets no more than a sparse one. */
function thinOut(arrows: readonly Arrow[], apart: number): Arrow[] {
  const kept = new Map<string, Arrow[]>()
  const cell = ([x, y]: Point) => [Math.floor(x / apart), Math.floor(y / apart)] as const
  return arrows.filter((arrow) => {
    const [cx, cy] = cell(arrow.at)
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        const near = kept.get(`${cx + dx},${cy + dy}`) ?? []
        if (near.some((other) => distance(other.at, arrow.at) < apart)) return false
      }
    }
    const key = `${cx},${cy}`
    kept.set(key, [...(kept.get(key) ?? []), arrow])
    return true
  })
}

function arrowHead({ at: [x, y], direction: [dx, dy] }: Arrow, size: number): string {
  const at = (along: number, across: number) =>
    `${numberText(x + size * (along * dx - across * dy), 2)} ${numberText(y + size * (along * dy + across * dx), 2)}`
  return `M${at(0.9, 0)}L${at(-0.6, 0.6)}L${at(-0.25, 0)}L${at(-0.6, -0.6)}Z`
}

/** A numbered badge in the middle of each area. */
function areaLayer(drawing: Drawing, pen: Pen): string {
  const areas: Point[][] = Array.from({ length: drawing.areaCount }, () => [])
  for (const line of drawing.lines) {
    for (const part of line.parts) if (part.kind === 'fill') areas[part.area]?.push(...cornersOf(part.stroke))
  }
  const badges = areas.map((points, i) => {
    if (points.length === 0) return ''
    const [x, y] = middleOf(points)
    const m = pen.mark
    return [
      `<circle cx="${numberText(x, 2)}" cy="${numberText(y, 2)}" r="${numberText(m * 1.25, 2)}" fill="${PAPER}" fill-opacity="0.88" stroke="${INK}" stroke-width="${numberText(m / 10, 2)}"/>`,
      `<text x="${numberText(x, 2)}" y="${numberText(y + m * 0.48, 2)}" font-size="${numberText(m * 1.35, 2)}" text-anchor="middle" fill="${INK}">${i + 1}</text>`,
    ].join('')
  })
  return `<g id="areas">${badges.join('\n')}</g>`
}

const cornersOf = (stroke: Stroke): Point[] => [stroke.start, ...stroke.segments.map((s) => s.to)]

/** The point of the set nearest to the middle of its box: never off the stitching. */
function middleOf(points: readonly Point[]): Point {
  const box = boundsOf(points)
  const middle: Point = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]
  return points.reduce((best, p) => (distance(p, middle) < distance(best, middle) ? p : best))
}
