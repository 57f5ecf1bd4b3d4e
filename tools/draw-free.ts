/**
 * Renders a motif that starts and ends by itself to a PNG, to look at: strips of three widths, each with mirrored halves
 * joined at the side's middle, in two stretches, and turned round a mitred corner.
 *
 * Usage: tsx tools/draw-free.ts NAME OUT.png [key=value ...]
 */
import { writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import type { Point } from '../src/geometry/point.ts'
import { flattenStroke } from '../src/geometry/stroke.ts'
import type { Edge, Motif, Params, ValuesOf } from '../src/motif/contract.ts'
import { drawStretch } from '../src/motif/draw-stretch.ts'

type Values = ValuesOf<Params>

const [name = 'swirl', out = 'motif.png', ...settings] = process.argv.slice(2)
const motif = (await import(`../motifs/${name}.ts`)).default as Motif
const given = Object.fromEntries(
  settings
    .map((s) => s.split('='))
    .map(([key, value]) => [key, Number.isNaN(Number(value)) ? value : Number(value)]),
)

const valuesFor = (width: number): Values => {
  const defaults = Object.entries(motif.params).map(([key, p]) => {
    if (p.kind !== 'length') return [key, p.default]
    const value = typeof p.default === 'number' ? p.default : p.default.widths * width
    return [key, Math.min(p.max, Math.max(p.min, value))]
  })
  return { ...Object.fromEntries(defaults), ...given }
}

/** A half side in two stretches: where each begins and ends on both seams, and on which edges. */
interface Plan {
  readonly width: number
  readonly half: number
  readonly station: number
  readonly edges: readonly [Edge, Edge, Edge]
}

function halfSide({ width, half, station, edges }: Plan): Point[][] {
  const filler = { name, motif, values: valuesFor(width) }
  const at = [
    { inner: 0, outer: 0 },
    { inner: station, outer: station },
    { inner: half, outer: half + width },
  ]
  return [0, 1].map((i) => {
    const stretch = { width, start: at[i]!, end: at[i + 1]! }
    const length = at[i + 1]![edges[i + 1]!] - at[i]![edges[i]!]
    const run = {
      stretch,
      from: edges[i]!,
      to: edges[i + 1]!,
      halfRepeats: halfRepeats(length / motif.repeat(width, filler.values), edges[i] === edges[i + 1]),
      atMiddle: i === 0,
      atCorner: i === 1,
      seed: i + 1,
    }
    return flattenStroke(drawStretch(filler, run).stroke, 0.01) as Point[]
  })
}

/** Whole repeats for a motif that ends by itself; otherwise whole ones from an edge back to it, and a half more across. */
function halfRepeats(repeats: number, isBack: boolean): number {
  if (motif.ends === 'free') return 2 * Math.max(1, Math.round(repeats))
  return isBack ? 2 * Math.max(1, Math.round(repeats)) : 2 * Math.max(0, Math.round(repeats - 0.5)) + 1
}

const pathOf = (points: readonly Point[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(3)} ${y.toFixed(3)}`).join('')

/** One figure, made 1000 units wide: left half, right half, and the corner turned down. */
function figure(plan: Plan, top: number): { svg: string; height: number } {
  const { width, half, station } = plan
  const parts = halfSide(plan)
  const right = parts.flat()
  const shown = station
  const mitre = shown + half
  const toRight = ([u, v]: Point): Point => [shown + u, width - v]
  const lines = [
    parts[0]!.map(([u, v]): Point => [shown - u, width - v]),
    right.map(toRight),
    right.map(([u, v]): Point => [mitre + v, width + half - u]),
  ]
  const full = mitre + width
  const k = 1000 / full
  const depth = Math.min(width + half, 0.42 * full)
  const seams = `M0 0H${full}V${depth}M0 ${width}H${mitre}V${depth}`
  const strokes = lines.map((p) => `<path d="${pathOf(p)}" stroke="#124" stroke-width="${1.8 / k}"/>`)
  const clip = `<clipPath id="c${top}"><rect x="-1" y="-1" width="${full + 2}" height="${depth}"/></clipPath>`
  const frame = `<path d="${seams}" stroke="#c98" stroke-width="${0.7 / k}"/>`
  return {
    svg: `<g transform="translate(8 ${top}) scale(${k})">${clip}<g clip-path="url(#c${top})">${frame}${strokes.join('')}</g></g>`,
    height: depth * k,
  }
}

const { min, max } = motif.suits
const plans: Plan[] = [
  { width: min, half: 5.3 * min, station: 2.6 * min, edges: ['inner', 'outer', 'inner'] },
  { width: min + (max - min) * 0.3, half: 0, station: 0, edges: ['outer', 'inner', 'outer'] },
  { width: max, half: 0, station: 0, edges: ['inner', 'inner', 'inner'] },
  { width: max, half: 0, station: 0, edges: ['outer', 'outer', 'outer'] },
].map((p, i) => ({
  ...p,
  half: p.width * [5.3, 4.6, 3.4, 3.4][i]!,
  station: p.width * [2.6, 2, 1.5, 1.5][i]!,
  edges: p.edges as unknown as Plan['edges'],
}))
let y = 8
const figures = plans.map((plan) => {
  const { svg, height } = figure(plan, y)
  y += height + 16
  return svg
})
const svg =
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1016 ${y}" fill="none" stroke-linejoin="round">` +
  `<rect width="100%" height="100%" fill="#fff"/>${figures.join('')}</svg>`
writeFileSync(out, new Resvg(svg, { fitTo: { mode: 'width', value: 2000 } }).render().asPng())
