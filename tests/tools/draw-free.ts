/** Draws free motifs to PNG: straight strips in several widths, mirrored about the middle, and a mitred corner. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import { flattenStroke, type Stroke } from '../../src/geometry/stroke.ts'
import type { Edge, Motif, Params, Strip } from '../../src/motif/contract.ts'

const [name = 'swirl', out = '/tmp/free', only = ''] = process.argv.slice(2)
const motif = (await import(`../../motifs/${name}.ts`)).default as Motif<Params>

function valuesFor(width: number): Record<string, number | string> {
  const entries = Object.entries(motif.params).map(([key, p]) => {
    const chosen = p.default
    const value = typeof chosen === 'object' ? chosen.widths * width : chosen
    return [key, p.kind === 'length' ? Math.min(p.max, Math.max(p.min, value as number)) : value] as const
  })
  const set = process.argv.slice(5).map((a) => a.split('=') as [string, string])
  return {
    ...Object.fromEntries(entries),
    ...Object.fromEntries(set.map(([k, v]) => [k, Number.isNaN(+v) ? v : +v])),
  }
}

const path = (stroke: Stroke, map: (p: readonly [number, number]) => readonly [number, number]) =>
  `<path fill="none" stroke="#223" stroke-width="0.7" stroke-linejoin="round" d="M${flattenStroke(
    stroke,
    0.02,
  )
    .map((p) =>
      map(p)
        .map((x) => x.toFixed(3))
        .join(','),
    )
    .join('L')}"/>`

function strip(width: number, repeats: number, from: Edge, to: Edge): Strip {
  const length = motif.repeat(width, valuesFor(width) as never) * repeats
  return { length, width, from, to, repeats, mirrorStart: true, mirrorEnd: false, seed: 5 }
}

/** Two stretches out from the middle, both halves, up to a mitred corner if the motif draws one. */
function picture(
  width: number,
  repeats: number,
  from: Edge,
  to: Edge,
): { svg: string; w: number; h: number } {
  const values = valuesFor(width) as never
  const first = strip(width, repeats, from, to)
  const second = { ...strip(width, repeats, to, from), mirrorStart: false, mirrorEnd: true, seed: 6 }
  const a = motif.draw(first, values).stroke
  const b = motif.drawToMitre
    ? motif.drawToMitre({ ...second, skew: 1 }, values).stroke
    : motif.draw(second, values).stroke
  const [la, lb] = [first.length, second.length]
  const cx = la + lb + width
  // x to the right, y down; the inner edge lies below, at y = width
  const place = (du: number) => (p: readonly [number, number]) => [p[0] + du, width - p[1]] as const
  const mirror = (f: ReturnType<typeof place>) => (p: readonly [number, number]) => {
    const [x, y] = f(p)
    return [-x, y] as const
  }
  const turned = (f: ReturnType<typeof place>) => (p: readonly [number, number]) => {
    const [x, y] = f(p)
    return [la + lb + width - y, width - (x - (la + lb))] as const
  }
  let svg = ''
  for (const [s, f] of [
    [a, place(0)],
    [b, place(la)],
  ] as const) {
    svg += path(s, f) + path(s, mirror(f))
    svg += path(s, turned(f))
  }
  svg += `<path fill="none" stroke="#c66" stroke-width="0.3" d="M${-cx},0H${cx}V${cx}M${-cx},${width}H${la + lb}V${cx}M${la + lb},${width}L${cx},0M0,0V${width}M${la},0V${width}"/>`
  return { svg: `<g transform="translate(${cx + 5} 5)">${svg}</g>`, w: 2 * cx + 10, h: cx + 10 }
}

mkdirSync(out, { recursive: true })
const pictures = only
  ? [only.split(',')].map(([w, r, f, t]) => [+w!, +r!, f as Edge, t as Edge] as const)
  : ([
      [55, 4, 'inner', 'inner'],
      [80, 3, 'inner', 'outer'],
      [110, 2, 'outer', 'outer'],
    ] as const)
let y = 0
let w = 0
let body = ''
for (const p of pictures) {
  const [width, repeats, from, to] = p
  const made = picture(width, repeats, from, to)
  const h = Math.min(made.h, p[0] * 3.2)
  body += `<svg x="0" y="${y}" width="${made.w}" height="${h}">${made.svg}</svg>`
  y += h + 6
  w = Math.max(w, made.w)
}
const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${y}" viewBox="0 0 ${w} ${y}"><rect width="100%" height="100%" fill="#fff"/>${body}</svg>`
writeFileSync(
  `${out}/${name}.png`,
  new Resvg(svg, { fitTo: { mode: 'width', value: 1800 } }).render().asPng(),
)
