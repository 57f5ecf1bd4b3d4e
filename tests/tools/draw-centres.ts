/** Draws every centre filler in a few rectangles to one PNG. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import { flattenStroke } from '../../src/geometry/stroke.ts'
import type { CentreFiller } from '../../src/motif/centre-contract.ts'
import type { Params } from '../../src/motif/contract.ts'

const out = process.argv[2] ?? '/tmp/free'
let [body, x, y] = ['', 5, 5]
for (const name of ['echo-rails', 'meander', 'swirl', 'crosshatch', 'clamshell']) {
  const filler = (await import(`../../motifs/centres/${name}.ts`)).default as CentreFiller<Params>
  const values = Object.fromEntries(
    Object.entries(filler.params).map(([k, p]) => [k, typeof p.default === 'object' ? 10 : p.default]),
  )
  for (const [width, height] of [
    [200, 200],
    [300, 150],
    [110, 230],
  ] as const) {
    const { stroke } = filler.fill({ width, height, seed: 3 }, values as never)
    const d = flattenStroke(stroke, 0.03)
      .map((p) => p.map((n) => n.toFixed(2)).join())
      .join('L')
    body += `<g transform="translate(${x} ${y})"><rect width="${width}" height="${height}" fill="none" stroke="#c66" stroke-width=".5"/><path d="M${d}" fill="none" stroke="#223" stroke-width=".9"/></g>`
    x += width + 10
  }
  x = 5
  y += 240
}
mkdirSync(out, { recursive: true })
const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="650" height="${y}"><rect width="100%" height="100%" fill="#fff"/>${body}</svg>`
writeFileSync(
  `${out}/centres.png`,
  new Resvg(svg, { fitTo: { mode: 'width', value: 1300 } }).render().asPng(),
)
