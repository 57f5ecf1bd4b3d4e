/** Draws every corner motif with a few entries and exits to one PNG. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import type { Point } from '../../src/geometry/point.ts'
import { flattenStroke } from '../../src/geometry/stroke.ts'
import type { Params } from '../../src/motif/contract.ts'
import type { CornerMotif } from '../../src/motif/corner-contract.ts'

const out = process.argv[2] ?? '/tmp/free'
const ports: readonly (readonly [Point, Point])[] = [
  [
    [0, 0],
    [0, 0],
  ],
  [
    [0, 0],
    [1, 0],
  ],
  [
    [0, 0],
    [1, 1],
  ],
  [
    [0.5, 0],
    [1, 0.5],
  ],
  [
    [1, 0.5],
    [0.5, 0],
  ],
  [
    [0, 1],
    [0, 0],
  ],
  [
    [0, 0.3],
    [0.7, 1],
  ],
]
let [body, x, y] = ['', 5, 5]
for (const name of ['spiral', 'four-petal', 'echo-square']) {
  const motif = (await import(`../../motifs/corners/${name}.ts`)).default as CornerMotif<Params>
  const values = Object.fromEntries(Object.entries(motif.params).map(([k, p]) => [k, p.default]))
  for (const [a, b] of ports) {
    const [width, height] = [100, 100]
    const patch = { width, height, entry: [a[0] * width, a[1] * height], exit: [b[0] * width, b[1] * height] }
    const d = flattenStroke(motif.draw(patch as never, values as never), 0.03)
      .map((p) => p.map((n) => n.toFixed(2)).join())
      .join('L')
    body += `<g transform="translate(${x} ${y})"><rect width="${width}" height="${height}" fill="none" stroke="#c66" stroke-width=".5"/><path d="M${d}" fill="none" stroke="#223" stroke-width=".8"/></g>`
    x += width + 10
  }
  x = 5
  y += 110
}
mkdirSync(out, { recursive: true })
const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="780" height="${y}"><rect width="100%" height="100%" fill="#fff"/>${body}</svg>`
writeFileSync(
  `${out}/corners.png`,
  new Resvg(svg, { fitTo: { mode: 'width', value: 1560 } }).render().asPng(),
)
