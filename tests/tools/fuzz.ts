// Feeds generated and broken plan files to the reader, and every 20th to the whole pipeline with every exporter.
// npm run fuzz -- --runs 10000 --seed 1; with --drawings it feeds drawings to the reader of motifs of one's own.
import { spawnSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { fuzz } from '../fuzz/fuzz.ts'
import { fuzzDrawings } from '../fuzz/svg-motif.ts'

const { values } = parseArgs({
  options: {
    runs: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '1' },
    every: { type: 'string', default: '20' },
    from: { type: 'string' },
    to: { type: 'string' },
    drawings: { type: 'boolean', default: false },
  },
})
const [seed, planEvery] = [Number(values.seed), Number(values.every)]

if (values.from !== undefined) {
  const [first, end] = [Number(values.from), Number(values.to)]
  const findings = values.drawings
    ? fuzzDrawings(seed, first, end)
    : await fuzz({ seed, planEvery, from: first, to: end })
  for (const finding of findings) console.log(JSON.stringify(finding))
} else {
  const runs = Number(values.runs)
  const chunk = values.drawings ? 1000 : 200
  let count = 0
  for (let from = 0; from < runs; from += chunk) {
    const to = Math.min(runs, from + chunk)
    const { status, signal, stdout, stderr } = spawnSync(
      process.execPath,
      // A process of its own for every chunk: a hang or more than 1 GB of memory ends it, and is a finding.
      [
        ...process.execArgv,
        '--max-old-space-size=1024',
        fileURLToPath(import.meta.url),
        `--seed=${seed}`,
        `--every=${planEvery}`,
        `--from=${from}`,
        `--to=${to}`,
        ...(values.drawings ? ['--drawings'] : []),
      ],
      { encoding: 'utf8', timeout: 600_000, maxBuffer: 1 << 28 },
    )
    for (const line of stdout.split('\n').filter(Boolean)) {
      count++
      const finding = JSON.parse(line) as { case: number; what: string; text: string }
      console.log(`case ${finding.case}: ${finding.what}\n${finding.text.slice(0, 2000)}\n`)
    }
    if (status !== 0) {
      count++
      console.log(`cases ${from} to ${to}: ended with ${signal ?? status}\n${stderr.slice(-2000)}`)
    }
  }
  console.log(
    `seed ${seed}: ${runs} ${values.drawings ? 'drawings' : `cases, every ${planEvery}th through the whole pipeline`}; ${count} findings`,
  )
  process.exitCode = count > 0 ? 1 : 0
}
