import type { Drawing } from '../src/export/drawing.ts'
import { exportDrawing } from '../src/export/index.ts'
import type { Point } from '../src/geometry/point.ts'
import { strokeThrough } from '../src/geometry/stroke.ts'
import { inches } from '../src/units.ts'
import { harbourDrawing, seeded } from '../tests/support/sample-drawings.ts'
import { even, mitredQuilt } from '../tests/support/sample-quilts.ts'

/**
 * Times every exporter on a quilt of 60 x 60 in whose line has 200,000 segments that can't be left out. Bounds: tracing
 * sheets under 3 s, 250 MB and 2 MB (a writer that knows its 60 pages beforehand took 0.9 s and 143 MB for as many
 * segments); machine paths under 2 s.
 */
const SEGMENTS = 200_000

function denseDrawing(): Drawing {
  const next = seeded(7)
  const side = inches(60)
  const quilt = mitredQuilt([inches(20), inches(20)], [{ name: 'harbour', widths: even(inches(20)) }], 0)
  const points: Point[] = []
  // A boustrophedon of 400 rows with 500 shaky steps each.
  for (let row = 0; row < 400; row++)
    for (let step = 0; step < SEGMENTS / 400; step++) {
      const along = (step + 0.5) / (SEGMENTS / 400)
      points.push([side * (row % 2 === 0 ? along : 1 - along), (side * (row + 0.2 + 0.6 * next())) / 400])
    }
  return {
    ...harbourDrawing(),
    title: 'Harbour, dense',
    quilt,
    areaCount: 1,
    lines: [
      { thread: '#333333', parts: [{ kind: 'fill', band: 0, area: 0, stroke: strokeThrough(points) }] },
    ],
  }
}

const drawing = denseDrawing()
const runs: [id: string, options: Record<string, unknown>, seconds: number, megabytes: number][] = [
  ['sheets', { paper: 'letter' }, 3, 2],
  ['svg', {}, 2, 20],
  ['dxf', {}, 2, 30],
  ['gcode', {}, 2, 20],
  ['csv', {}, 2, 20],
  ['order-pdf', {}, 3, 5],
]
console.log(`before: ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`)
const only = process.argv[2]
console.log('format      seconds  bound   size MB  bound   peak MB (whole process, grows)')
for (const [id, options, seconds, megabytes] of runs) {
  if (only && id !== only) continue
  const start = performance.now()
  const content = await exportDrawing(id, drawing, options)
  const took = (performance.now() - start) / 1000
  const size = (typeof content === 'string' ? content.length : content.byteLength) / 1e6
  const peak = process.resourceUsage().maxRSS / 1024
  console.log(
    `${id.padEnd(11)} ${took.toFixed(2).padStart(7)} ${String(seconds).padStart(6)} ${size.toFixed(2).padStart(9)} ${String(megabytes).padStart(6)} ${peak.toFixed(0).padStart(9)}`,
  )
}
