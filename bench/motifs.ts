import { LIBRARY } from '../motifs/library.ts'
import { flattenStroke, type Stroke, strokeLength } from '../src/geometry/stroke.ts'
import type { Motif, Strip } from '../src/motif/contract.ts'
import { defaultValues } from '../src/plan/settle-filler.ts'

// Strokes drawn in a second by each motif, beside the cost of only flattening the same curves to the report's 0.05 mm: no
// motif may cost more than five times that; and microseconds of drawing to the metre of line. Each draws a stretch of four
// repeats in a band of its middle width.
// Run: npx tsx bench/motifs.ts

const BOUND = 5
const CHORD = 0.05
const [ROUNDS, MILLIS] = [7, 40]

/** Time that the machine spent on this program, whatever else it does, ms. */
const millis = () => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1000
}

/** How long one call takes, ms: the least of some rounds, each long enough to be measured. */
function timeOf(work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY
  for (let round = 0; round < ROUNDS; round++) {
    const start = millis()
    let count = 0
    do {
      for (let i = 0; i < 8; i++) work()
      count += 8
    } while (millis() - start < MILLIS)
    best = Math.min(best, (millis() - start) / count)
  }
  return best
}

function stripOf(motif: Motif): { strip: Strip; values: never } {
  const width = Math.sqrt(motif.suits.min * motif.suits.max)
  const values = defaultValues(motif.params, width)
  const ends = { from: 'inner', to: 'inner', mirrorStart: true, mirrorEnd: false, seed: 1 } as const
  return {
    strip: { ...ends, width, repeats: 4, length: 4 * motif.repeat(width, values) },
    values: values as never,
  }
}

let worst = 0
console.log('motif          strokes/s   us/m of line   curves/stroke   drawing / flattening')
for (const [name, motif] of Object.entries(LIBRARY.motifs)) {
  const { strip, values } = stripOf(motif)
  const { stroke }: { stroke: Stroke } = motif.draw(strip, values)
  const drawing = timeOf(() => motif.draw(strip, values))
  const flattening = timeOf(() => flattenStroke(stroke, CHORD))
  const ratio = drawing / flattening
  worst = Math.max(worst, ratio)
  const cells = [
    (1000 / drawing).toFixed(0).padStart(9),
    ((1e6 * drawing) / strokeLength(stroke)).toFixed(1).padStart(12),
    String(stroke.segments.length).padStart(13),
    ratio.toFixed(2).padStart(20),
  ]
  console.log(`${name.padEnd(14)} ${cells.join('   ')}`)
}
console.log(`at worst ${worst.toFixed(2)} times the cost of flattening; the bound is ${BOUND}`)
process.exitCode = worst > BOUND ? 1 : 0
