// Route planning against proven optima, and against two simpler ways on ring weaves. Run: npx tsx bench/route.ts
// or one table of it: npx tsx bench/route.ts growth | weaves | instances [iterations]
import { ITERATIONS, type RouteResult, solveByAreas, solvePostman } from '../src/route/index.ts'
import { assertValidRoute } from '../tests/route/assert-valid-route.ts'
import { aroundPlan, bandRange, ringWeave, type Weave } from '../tests/route/ring-weave.ts'
import { type Instance, readInstances } from '../tests/route/rpp-data.ts'
import { nearestNeighbour } from './nearest-neighbour.ts'

const iterations = Number(process.argv[3] ?? ITERATIONS)

/** Processor time used so far, ms: not disturbed by what else the machine does. */
const cpuMs = (): number => process.cpuUsage().user / 1000

interface Tally {
  count: number
  optimal: number
  gap: number
  worst: number
  ms: number
  slowest: number
}

const MODES = {
  closed: () => ({ closed: true }),
  open: () => ({}),
  fixed: ({ graph }: Instance) => ({ start: 0, end: graph.vertexCount - 1 }),
}

function tally(tallies: Map<string, Tally>, key: string, run: { gap: number; ms: number }): void {
  const t = tallies.get(key) ?? { count: 0, optimal: 0, gap: 0, worst: 0, ms: 0, slowest: 0 }
  tallies.set(key, t)
  t.count++
  if (run.gap === 0) t.optimal++
  t.gap += run.gap
  t.worst = Math.max(t.worst, run.gap)
  t.ms += run.ms
  t.slowest = Math.max(t.slowest, run.ms)
}

/** The gap of the total length above the proven optimum, %. */
function gapOf(instance: Instance, mode: keyof typeof MODES): { gap: number; ms: number } {
  const start = cpuMs()
  const { walk, cost } = solvePostman(instance.graph, { ...MODES[mode](instance), iterations })
  const ms = cpuMs() - start
  assertValidRoute(instance.graph, { walks: [walk], extra: cost })
  return { gap: (100 * (instance.requiredLength + cost - instance[mode]!)) / instance[mode]!, ms }
}

function instanceTable(): void {
  const tallies = new Map<string, Tally>()
  for (const instance of readInstances())
    for (const mode of Object.keys(MODES) as (keyof typeof MODES)[]) {
      if (instance[mode] === undefined) continue
      const run = gapOf(instance, mode)
      tally(tallies, `${instance.family} ${mode}`, run)
      tally(
        tallies,
        `${instance.requiredCount <= 40 ? 'up to 40 required' : 'over 40 required'} ${mode}`,
        run,
      )
    }
  console.log(`Benchmark instances, ${iterations} rounds: gap above the proven optimum, % of total length`)
  console.log(
    '| family and mode | optimal | mean gap | worst gap | mean ms | worst ms |\n| --- | --- | --- | --- | --- | --- |',
  )
  for (const [key, t] of tallies)
    console.log(
      `| ${key} | ${t.optimal}/${t.count} | ${(t.gap / t.count).toFixed(3)} | ${t.worst.toFixed(2)} | ${(t.ms / t.count).toFixed(0)} | ${t.slowest.toFixed(0)} |`,
    )
}

/** How often a sequence of edges goes on to another station of the weave. */
function moves(weave: Weave, order: readonly number[]): number {
  const area = new Map<number, number>()
  for (let b = 0; b < weave.bands; b++)
    for (let j = 0; j < weave.stations; j++) for (const e of weave.stretch(b, j)) area.set(e, j)
  const areas = order.flatMap((e) => area.get(e) ?? [])
  return areas.filter((a, i) => i > 0 && a !== areas[i - 1]).length
}

const stepsOf = (route: RouteResult): number[] => route.walks.flatMap((w) => w.steps.map((s) => s.edge))

function timed<T>(run: () => T): { value: T; ms: number } {
  run()
  const start = cpuMs()
  const value = run()
  return { value, ms: cpuMs() - start }
}

function weaveRow(
  name: string,
  weave: Weave,
  result: { extra: number; starts: number; order: readonly number[]; ms: number },
): void {
  const required = weave.graph.edges.filter((e) => e.required).length
  console.log(
    `| ${weave.bands} x ${weave.stations}, ${required} edges | ${name} | ${result.starts} | ${result.extra.toFixed(0)} | ${moves(weave, result.order)} | ${result.ms.toFixed(0)} |`,
  )
}

/** Whole areas, and every split into an inner and an outer group with an odd inner one, from two stations. */
function weavePlans(weave: Weave): number[][][] {
  const all = bandRange(0, weave.bands)
  const split = (k: number, from: number) => [
    ...aroundPlan(weave, all.slice(0, k), from),
    ...aroundPlan(weave, all.slice(k), from),
  ]
  const splits = all.filter((k) => k % 2 === 1).flatMap((k) => [split(k, 0), split(k, 1)])
  return [aroundPlan(weave, all), aroundPlan(weave, all, 1), ...splits]
}

/** The baseline keeps a row of distances per vertex; beyond so many edges that is too much memory. */
const BASELINE_LIMIT = 10_000

const SHAPES = [
  { bands: 3, stations: 8, pieces: 9 },
  { bands: 8, stations: 16, pieces: 19 },
  { bands: 9, stations: 16, pieces: 21 },
  { bands: 9, stations: 16, pieces: 20, inStep: true },
  { bands: 9, stations: 32, pieces: 35 },
]

function weaveTable(): void {
  console.log('\nRing weaves: price of extra passes (mm of seam), changes of station, processor time')
  console.log(
    '| bands x stations | way | starts | extra | moves | ms |\n| --- | --- | --- | --- | --- | --- |',
  )
  for (const shape of SHAPES) {
    const weave = ringWeave(shape)
    const byArea = timed(() => solveByAreas(weave.graph, { plans: weavePlans(weave) }))
    weaveRow('area by area', weave, {
      ...byArea.value,
      starts: byArea.value.walks.length,
      order: stepsOf(byArea.value),
      ms: byArea.ms,
    })
    console.log(
      `| | proved bound, any order | ${byArea.value.startsBound} | ${byArea.value.lowerBound.toFixed(0)} | | |`,
    )
    const laps = [
      bandRange(0, weave.bands).map((b) => bandRange(0, weave.stations).flatMap((j) => weave.stretch(b, j))),
    ]
    const lapped = timed(() => solveByAreas(weave.graph, { plans: laps }))
    weaveRow('lap by lap', weave, {
      ...lapped.value,
      starts: lapped.value.walks.length,
      order: stepsOf(lapped.value),
      ms: lapped.ms,
    })
    if (weave.graph.edges.length > BASELINE_LIMIT) continue
    const near = timed(() => nearestNeighbour(weave.graph))
    weaveRow('nearest neighbour + 2-opt', weave, { ...near.value, starts: 1, ms: near.ms })
  }
}

/** Weaves that grow by areas of the same size, about 190 required edges each. */
const GROWTH = [4, 8, 16, 32, 64, 128]
const GROWING = [
  { name: 'touching', shape: { bands: 9, pieces: 21 } },
  { name: 'in step, many odd vertices', shape: { bands: 9, pieces: 20, inStep: true } },
]
const ROUNDS = 3

/** The least of several runs: what the processor does beside it is not counted. */
function leastMs(run: () => unknown): number {
  return Math.min(...Array.from({ length: ROUNDS }, () => timed(run).ms))
}

function growthTable(): void {
  console.log('\nGrowth with areas of steady size: processor time, and beside it n log n from the row before')
  console.log(
    '| weave | areas | required edges | ms | ms per n log n, x 10^6 | exponent |\n| --- | --- | --- | --- | --- | --- |',
  )
  for (const { name, shape } of GROWING) {
    let before: { edges: number; ms: number } | undefined
    for (const stations of GROWTH) {
      const weave = ringWeave({ ...shape, stations })
      const plans = [aroundPlan(weave, bandRange(0, weave.bands))]
      const edges = weave.graph.edges.filter((e) => e.required).length
      const ms = leastMs(() => solveByAreas(weave.graph, { plans }))
      const exponent = before ? Math.log(ms / before.ms) / Math.log(edges / before.edges) : undefined
      const perUnit = (1e6 * ms) / (edges * Math.log2(edges))
      console.log(
        `| ${name} | ${stations} | ${edges} | ${ms.toFixed(0)} | ${perUnit.toFixed(0)} | ${exponent?.toFixed(2) ?? ''} |`,
      )
      before = { edges, ms }
    }
  }
}

const TABLES: Readonly<Record<string, () => void>> = {
  growth: growthTable,
  weaves: weaveTable,
  instances: instanceTable,
}
const asked = process.argv[2]
if (asked !== undefined && asked in TABLES) TABLES[asked]!()
else for (const table of Object.values(TABLES)) table()
