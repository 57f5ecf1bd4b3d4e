// How time, memory and quality of route grow, from 1 to 200 bands and from 1 m to 10 km of line: npx tsx bench/scale.ts
// Each plan runs in a process of its own, bundled as the command line is; its peak memory is told.
// `npx tsx bench/scale.ts bands-200 line-10km` runs some of them.
// Bounds beside the figures: moves of the quilt against its area over what is stitched without moving it; overlap and
// travel against the line; the exponent of time over length of line, where 1 is linear.
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf, layOutPlan } from '../src/engine-input.ts'
import { exportDrawing } from '../src/export/index.ts'
import { threadLine } from '../src/pieces/thread-line.ts'
import { fillQuilt, gapTaskOf, planFromText, reckonQuilt, tellQuilt, threadQuilt } from '../src/pipeline.ts'
import type { Catalog } from '../src/plan/catalog.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { findGaps } from '../src/report/find-gaps.ts'
import { measureLines } from '../src/report/measure-line.ts'

interface PlanSize {
  readonly bands: number
  /** mm */
  readonly width: number
  readonly centre: number
  readonly fillers: readonly unknown[]
}

const NARROW = ['bracket', 'loop-line', 'scallop', 'ribbon', 'wave']
const WIDE = ['scallop', 'swirl', 's-echo', 'feather', 'piano-keys']

/** By bands: 24 mm each, so that 200 of them fit on the largest quilt. By length: nine bands that grow together. */
const CASES: Readonly<Record<string, PlanSize>> = {
  ...Object.fromEntries(
    [1, 2, 5, 10, 20, 50, 100, 200].map((bands) => [
      `bands-${bands}`,
      { bands, width: 24, centre: 300, fillers: NARROW },
    ]),
  ),
  'line-1m': { bands: 1, width: 13, centre: 145, fillers: ['bracket'] },
  'line-10m': { bands: 3, width: 30, centre: 330, fillers: NARROW },
  'line-100m': { bands: 5, width: 60, centre: 600, fillers: WIDE },
  'line-1km': { bands: 16, width: 60, centre: 1200, fillers: WIDE },
  'line-10km': { bands: 70, width: 60, centre: 1200, fillers: WIDE },
}

const textOf = ({ bands, width, centre, fillers }: PlanSize): string =>
  JSON.stringify({
    units: 'mm',
    centre: { width: centre, height: centre },
    bands: Array.from({ length: bands }, (_, i) => ({
      name: `band ${i + 1}`,
      width,
      filler: fillers[i % fillers.length],
    })),
    machine: { reach: [450, 450] },
  })

const STEPS = [
  'read',
  'layout',
  'fill',
  'route',
  'line',
  'measure',
  'gaps',
  'reckon',
  'export',
  'path',
] as const
type Step = (typeof STEPS)[number]

interface Row {
  readonly name: string
  readonly bands: number
  readonly metres: number
  readonly steps: Readonly<Record<Step, number>>
  readonly megabytes: number
  readonly moves: number
  readonly movesBound: number
  readonly overlap: number
  readonly travel: number
  readonly starts: number
}

/** CPU time of a piece of work, ms. */
async function timed<T>(work: () => T | Promise<T>): Promise<[T, number]> {
  const before = process.cpuUsage()
  const result = await work()
  const { user, system } = process.cpuUsage(before)
  return [result, (user + system) / 1000]
}

/** A small plan first: what is compiled and loaded once is not held against the plan. */
function warmUp(catalog: Catalog): void {
  const fillers = ['bracket', 'loop-line', 'swirl', 's-echo']
  planFromText(textOf({ bands: 4, width: 50, centre: 300, fillers }), catalog)
}

async function measure(name: string): Promise<Row> {
  const size = CASES[name]!
  const catalog = catalogOf(LIBRARY)
  warmUp(catalog)
  const [{ plan }, read] = await timed(() => readPlan(textOf(size), catalog))
  const [, layout] = await timed(() => layOutPlan(plan))
  const [filled, layoutAndFill] = await timed(() => fillQuilt(plan, catalog))
  const [threaded, routeAndLine] = await timed(() => threadQuilt(filled, catalog))
  const { route, net } = threaded.line.works[0]!
  const [, line] = await timed(() =>
    route.walks.map((walk) => threadLine(walk.steps, { pieces: filled.pieces, net, thread: '#000000' })),
  )
  const gapTask = gapTaskOf(threaded)
  const [, measured] = await timed(() =>
    measureLines(threaded.line.lines, { reach: plan.machine.reach, chords: gapTask.chords }),
  )
  const [found, gaps] = await timed(() => findGaps(gapTask))
  const [reckoned, measuredAndReckoned] = await timed(() => reckonQuilt(threaded, gapTask))
  const [{ report, drawing }, told] = await timed(() => tellQuilt(reckoned, { gaps: found, warnings: [] }))
  const [, exported] = await timed(async () => {
    for (const id of ['picture', 'line-json']) await exportDrawing(id, drawing)
  })
  const [, path] = await timed(() => exportDrawing('gcode', drawing))
  const side = size.centre + 2 * size.bands * size.width
  const { lengthMm, overlapShare, travelMm, repositions, threadStarts } = report.line
  return {
    name,
    bands: size.bands,
    metres: lengthMm / 1000,
    steps: {
      read,
      layout,
      fill: Math.max(0, layoutAndFill - layout),
      line,
      gaps,
      route: routeAndLine - line,
      measure: measured,
      reckon: Math.max(0, measuredAndReckoned - measured) + told,
      export: exported,
      path,
    },
    megabytes: process.resourceUsage().maxRSS / 1024,
    moves: repositions,
    movesBound: (side * side - size.centre ** 2) / 450 ** 2 - 1,
    overlap: 100 * overlapShare,
    travel: (100 * travelMm) / lengthMm,
    starts: threadStarts,
  }
}

/** The script as one file, without what the runner of TypeScript adds to every function. */
async function bundle(folder: string): Promise<string> {
  const { build } = await import('esbuild')
  const outfile = join(folder, 'scale.mjs')
  await build({
    entryPoints: [fileURLToPath(import.meta.url)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    mainFields: ['module', 'main'],
    external: ['esbuild'],
    define: { 'process.env.SCALE_ALONE': '"yes"' },
    banner: { js: 'import{createRequire as __cr}from"node:module";const require=__cr(import.meta.url);' },
    logLevel: 'error',
  })
  return outfile
}

/** The exponent p of time ~ length^p between two rows. */
const exponent = (a: Row, b: Row): number => Math.log(total(b) / total(a)) / Math.log(b.metres / a.metres)
const total = ({ steps }: Row): number => STEPS.reduce((sum, step) => sum + steps[step], 0)

function say(row: Row, before: Row | undefined): void {
  const all = total(row)
  const share = STEPS.map((step) => `${((100 * row.steps[step]) / all).toFixed(0)}`.padStart(8)).join('')
  const cells = [
    row.name.padEnd(10),
    row.metres.toFixed(0).padStart(7),
    all.toFixed(0).padStart(8),
    (all / row.metres).toFixed(1).padStart(7),
    (before ? exponent(before, row).toFixed(2) : '').padStart(6),
    row.megabytes.toFixed(0).padStart(6),
    share,
    `${row.moves}/${Math.max(0, row.movesBound).toFixed(0)}`.padStart(10),
    row.overlap.toFixed(2).padStart(9),
    row.travel.toFixed(2).padStart(9),
    String(row.starts).padStart(7),
  ]
  console.log(cells.join(''))
}

async function table(names: readonly string[]): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'scale-'))
  const script = await bundle(folder)
  const heads = STEPS.map((step) => `${step}%`.padStart(8)).join('')
  console.log(`plan        line,m  CPU,ms   ms/m slope    MB${heads}     moves overlap,% travel,% starts`)
  let before: Row | undefined
  for (const name of names) {
    const told = execFileSync(process.execPath, [script, name], { encoding: 'utf8' })
    const row = JSON.parse(told) as Row
    say(row, before?.name.split('-')[0] === name.split('-')[0] ? before : undefined)
    before = row
  }
  rmSync(folder, { recursive: true })
}

const names = process.argv.slice(2)
if (process.env.SCALE_ALONE === 'yes') console.log(JSON.stringify(await measure(names[0]!)))
else await table(names.length > 0 ? names : Object.keys(CASES))
