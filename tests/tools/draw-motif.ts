/**
 * Renders a motif to a PNG, to look at: strips of four widths, each with mirrored halves joined at the side's middle, and
 * turned round a mitred corner.
 *
 * Usage: tsx tests/tools/draw-motif.ts NAME OUT.png [key=value ...]
 */
import { writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import type { Point } from '../../src/geometry/point.ts'
import { flattenStroke } from '../../src/geometry/stroke.ts'
import type { Edge, Motif, Params, Strip, ValuesOf } from '../../src/motif/contract.ts'

type Values = ValuesOf<Params>

const [name, out = 'motif.png', ...settings] = process.argv.slice(2)
const motif = (await import(`../../motifs/${name}.ts`)).default as Motif
const given = Object.fromEntries(
  settings
    .map((s) => s.split('='))
    .map(([key, value]) => [key, Number.isNaN(Number(value)) ? value : Number(value)]),
)

const valuesFor = (width: number): Values => {
  const defaults = Object.entries(motif.params).map(([key, p]) => {
    if (p.kind === 'length' && typeof p.default !== 'number') return [key, p.default.widths * width]
    return [key, p.default]
  })
  return { ...Object.fromEntries(defaults), ...given }
}

/** The half side from its middle to the mitre, in two stretches that join at a station; its length in the middle. */
function halfSide(width: number, values: Values, first: Edge): { points: Point[]; length: number } {
  const repeat = motif.repeat(width, values)
  const whole = Math.max(1, Math.round(Math.max(2.4 * width, 70) / repeat))
  const repeats = motif.ends === 'free' ? whole : whole + 0.5
  const second: Edge = first === 'inner' ? 'outer' : 'inner'
  const [near, far] = [repeat * repeats * 1.05, repeat * repeats * 0.97]
  const base = { width, repeats, seed: 1 }
  const start: Strip = { ...base, length: near, from: first, to: second, mirrorStart: true, mirrorEnd: false }
  const end: Strip = { ...base, length: far, from: second, to: first, mirrorStart: false, mirrorEnd: true }
  const points = flattenStroke(motif.draw(start, values).stroke, 0.02)
  const last = motif.drawToMitre
    ? motif.drawToMitre({ ...end, length: far - width / 2, skew: 1 }, values)
    : motif.draw(end, values)
  for (const [x, y] of flattenStroke(last.stroke, 0.02)) points.push([near + x, y])
  return { points, length: near + far }
}

/** Shears towards the mitre what is not yet drawn for it: near the corner only, or over the whole half side. */
function bend(points: readonly Point[], length: number, width: number): Point[] {
  return points.map(([u, v]) => {
    const near = motif.drawToMitre ? 0 : Math.max(0, (u - (length - 2 * width)) / (2 * width)) ** 2
    const s = motif.bend === 'fan' ? u / length : near
    return [u + s * (v - width / 2), v]
  })
}

/** Side to the left of the middle, to the right of it, round the corner and down. The outer seam is above. */
function lines(width: number, first: Edge): { paths: Point[][]; mitre: number } {
  const { points, length } = halfSide(width, valuesFor(width), first)
  const bent = bend(points, length, width)
  const shown = Math.min(length, Math.max(3 * width, 0.45 * length))
  const left = points.filter(([u]) => u <= shown).map(([u, v]): Point => [shown - u, width - v])
  const right = bent.map(([u, v]): Point => [shown + u, width - v])
  const mitre = shown + length - width / 2
  const down = bent.map(([u, v]): Point => [mitre + v, width + (length - width / 2 - u)])
  return { paths: [left, right, down], mitre }
}

const pathOf = (points: readonly Point[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(3)} ${y.toFixed(3)}`).join('')

/** One figure, made 1000 units wide: the strip, its seams and the line, with its side below the corner cut off. */
function figure(width: number, first: Edge, top: number): { svg: string; height: number } {
  const { paths, mitre } = lines(width, first)
  const k = 1000 / (mitre + width)
  const depth = Math.min(4 * width, (mitre + width) * 0.4)
  const seams = `M0 0H${mitre + width}V${depth}M0 ${width}H${mitre}V${depth}`
  const strokes = paths.map((p) => `<path d="${pathOf(p)}" stroke="#124" stroke-width="${1.6 / k}"/>`)
  const clip = `<clipPath id="c${top}"><rect x="-1" y="-1" width="${mitre + width + 2}" height="${depth}"/></clipPath>`
  const frame = `<path d="${seams}" stroke="#c98" stroke-width="${0.7 / k}"/>`
  const place = `transform="translate(8 ${top}) scale(${k})"`
  return {
    svg: `<g ${place}>${clip}<g clip-path="url(#c${top})">${frame}${strokes.join('')}</g></g>`,
    height: depth * k,
  }
}

const { min, max } = motif.suits
let y = 8
const figures: string[] = []
for (const width of [min, min + (max - min) * 0.2, min + (max - min) * 0.5, max]) {
  const { svg, height } = figure(width, figures.length % 2 === 0 ? 'inner' : 'outer', y)
  figures.push(svg)
  y += height + 16
}
const svg =
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1016 ${y}" fill="none" stroke-linejoin="round">` +
  `<rect width="100%" height="100%" fill="#fff"/>${figures.join('')}</svg>`
writeFileSync(out, new Resvg(svg, { fitTo: { mode: 'width', value: 2000 } }).render().asPng())
