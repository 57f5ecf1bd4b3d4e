// Routing whole quilts: time, and beside it two ways a user might otherwise go, on the same pieces. Run: npx tsx bench/route-quilts.ts
import { readFileSync } from 'node:fs'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { type LineTask, type PlannedLine, planLine } from '../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { measureLines } from '../src/report/measure-line.ts'
import { nearestNeighbour } from './nearest-neighbour.ts'

/** Processor time used so far, ms: not disturbed by what else the machine does. */
const cpuMs = (): number => process.cpuUsage().user / 1000

const sample = (name: string): string =>
  readFileSync(new URL(`../samples/${name}.yaml`, import.meta.url), 'utf8')

/** 20 bands of many fillers round a centre, about 104 x 104 in: king size. */
function kingSize(): string {
  const fillers = ['bracket', 'loop-line', 's-echo', 'scallop', 'swirl', 'wave', 'piano-keys']
  const bands = Array.from({ length: 20 }, (_, i) => ({
    name: `band ${i}`,
    width: [1, 1.5, 2.5, 2, 3, 1.5, 2][i % 7],
    filler: fillers[i % fillers.length],
  }))
  return JSON.stringify({ centre: { width: 28, height: 28 }, bands, machine: { reach: [18, 18] } })
}

const QUILTS: Readonly<Record<string, string>> = {
  'nine bands, the sample': sample('harbour-medallion'),
  '20 bands, king size': kingSize(),
}

const ROUNDS = 8

/** The least of several runs, after which everything is compiled. */
function timed<T>(run: () => T): { value: T; ms: number } {
  const runs = Array.from({ length: ROUNDS }, () => {
    const start = cpuMs()
    return { value: run(), ms: cpuMs() - start }
  })
  return runs.reduce((least, next) => (next.ms < least.ms ? next : least))
}

const row = (...cells: (string | number)[]): void => console.log(`| ${cells.join(' | ')} |`)

function lineRow(quilt: string, way: string, run: { value: PlannedLine; ms: number }, task: LineTask): void {
  const { lines, route, graph } = run.value
  const { repositions, lengthMm } = measureLines(lines, { reach: task.reach })
  const required = graph.edges.filter((edge) => edge.required).length
  row(
    `${quilt}, ${required} edges`,
    way,
    route.walks.length,
    route.overlapMm.toFixed(0),
    route.travelMm.toFixed(0),
    ((100 * (route.overlapMm + route.travelMm)) / lengthMm).toFixed(2),
    repositions.length,
    run.ms.toFixed(0),
  )
}

row('quilt', 'way', 'starts', 'overlap, mm', 'travel, mm', 'both, %', 'moves', 'processor ms')
row('---', '---', '---', '---', '---', '---', '---', '---')
for (const [name, text] of Object.entries(QUILTS)) {
  const catalog = catalogOf(LIBRARY)
  const task = lineTaskOf(fillQuilt(readPlan(text, catalog).plan, catalog))
  const byArea = timed(() => planLine(task))
  lineRow(name, 'area by area', byArea, task)
  const laps = { ...task, wishes: { ...task.wishes, work: 'laps' as const } }
  lineRow(
    name,
    'lap by lap',
    timed(() => planLine(laps)),
    laps,
  )
  const start = cpuMs()
  const near = nearestNeighbour(byArea.value.graph)
  row(
    name,
    'nearest neighbour + 2-opt',
    1,
    '',
    '',
    `price ${near.extra.toFixed(0)}`,
    '',
    (cpuMs() - start).toFixed(0),
  )
}
