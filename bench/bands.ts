// How the time of a whole plan grows with the number of bands: near-linear in the length of line.
// npx tsx bench/bands.ts
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { planFromText } from '../src/pipeline.ts'

const FILLERS = ['bracket', 'loop-line', 'scallop', 'swirl', 's-echo']
const catalog = catalogOf(LIBRARY)

const planOf = (count: number): string =>
  JSON.stringify({
    centre: { width: 12, height: 12 },
    bands: Array.from({ length: count }, (_, i) => ({
      name: `band ${i}`,
      width: 2,
      filler: FILLERS[i % FILLERS.length],
    })),
    machine: { reach: [18, 18] },
  })

const median = (values: number[]): number => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!

planFromText(planOf(4), catalog)
console.log('bands   line, m   CPU, ms   ms per m   overlap, %   starts')
for (const count of [2, 4, 8, 16, 32]) {
  const times: number[] = []
  let report = planFromText(planOf(count), catalog).report
  for (let round = 0; round < 3; round++) {
    const before = process.cpuUsage().user
    report = planFromText(planOf(count), catalog).report
    times.push((process.cpuUsage().user - before) / 1000)
  }
  const metres = report.line.lengthMm / 1000
  const ms = median(times)
  const cells = [
    count,
    metres.toFixed(0),
    ms.toFixed(0),
    (ms / metres).toFixed(2),
    (100 * report.line.overlapShare).toFixed(2),
    report.line.threadStarts,
  ]
  console.log(cells.map((cell) => String(cell).padStart(8)).join(' '))
}
