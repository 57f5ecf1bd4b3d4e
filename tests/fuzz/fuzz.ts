import fc from 'fast-check'
import { stringify } from 'yaml'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError } from '../../src/error.ts'
import { EXPORTERS, type ExporterId, exportDrawing } from '../../src/export/index.ts'
import { planQuilt } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { starterPlan } from '../../src/plan/starter.ts'
import { writePlan } from '../../src/plan/write-plan.ts'
import { reportFormat } from '../../src/report/report.ts'
import { planText } from '../support/arbitrary-plan.ts'
import { SAMPLES } from '../support/samples.ts'
import { wholePlan } from '../support/whole-plans.ts'
import { dice, mutateData, mutateText } from './mutate.ts'

/** One input and what was wrong with how it was taken. */
export interface Finding {
  readonly case: number
  readonly what: string
  readonly text: string
}

/** Seconds of work that one input may take. */
const MOST_SECONDS = 5
const CATALOG = catalogOf(LIBRARY)
const plans = wholePlan({ bands: 4, centre: 64, width: 24, values: true })

/** The input of a case: a sound plan, one with wrong values, or a text that is broken. The same seed gives the same text. */
export function inputOf(seed: number, index: number): string {
  const roll = dice(seed * 1_000_003 + index)
  const [data] = fc.sample(plans, { seed: seed * 1_000_003 + index, numRuns: 1 })
  const plain: unknown = JSON.parse(planText(data!, 'mm'))
  const texts = [starterPlan(), ...Object.values(SAMPLES)]
  switch (index % 4) {
    case 0:
      return stringify(mutateData(plain, roll))
    case 1:
      return mutateText(stringify(plain), roll)
    case 2:
      return mutateText(texts[roll(texts.length)]!, roll)
    default:
      return JSON.stringify(plain)
  }
}

/** Reads one input, and plans and exports it if `isPlanned` and it is small. What is found wrong is returned. */
export async function tryInput(text: string, isPlanned: boolean): Promise<string[]> {
  const before = process.cpuUsage()
  const found: string[] = []
  try {
    const { plan, warnings } = readPlan(text, CATALOG)
    if (JSON.stringify(readPlan(writePlan(plan, CATALOG), CATALOG).plan) !== JSON.stringify(plan))
      found.push('written and read it is another plan')
    if (isPlanned && isSmall(plan)) {
      const planned = planQuilt(plan, { catalog: CATALOG, warnings })
      reportFormat.parse(planned.report)
      for (const id of Object.keys(EXPORTERS)) await exportDrawing(id as ExporterId, planned.drawing)
    }
  } catch (error) {
    found.push(...complaintsAbout(error))
  }
  const { user, system } = process.cpuUsage(before)
  const seconds = (user + system) / 1e6
  if (seconds > (isPlanned ? 12 : 1) * MOST_SECONDS) found.push(`took ${seconds.toFixed(1)} s`)
  return found
}

/** Small enough for a quick run of the whole pipeline. */
const isSmall = ({ bands, centre }: ReturnType<typeof readPlan>['plan']): boolean =>
  bands.length <= 4 &&
  Math.max(centre.width, centre.height, ...bands.flatMap(({ width }) => Object.values(width))) <= 450

function complaintsAbout(error: unknown): string[] {
  if (!(error instanceof PlanError))
    return [
      `threw ${error instanceof Error ? `${error.name}: ${error.message}` : String(error)}\n${(error as Error).stack?.split('\n').slice(1, 6).join('\n')}`,
    ]
  const bad = error.problems.find(
    ({ message, hint = '', at }) =>
      message === '' || /\p{Cc}|\bat .*:\d+:\d+\)?$|undefined|\[object|NaN mm/u.test(message + hint + at),
  )
  return bad ? [`says ${JSON.stringify(bad)}`] : []
}

/** Runs a range of cases; every `planEvery`th goes through the whole pipeline. */
export async function fuzz({
  seed,
  from,
  to,
  planEvery,
}: {
  seed: number
  from: number
  to: number
  planEvery: number
}): Promise<Finding[]> {
  const findings: Finding[] = []
  for (let index = from; index < to; index++) {
    const text = inputOf(seed, index)
    for (const what of await tryInput(text, index % planEvery === planEvery - 1))
      findings.push({ case: index, what, text })
  }
  return findings
}
