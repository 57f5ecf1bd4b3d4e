import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { PlanError } from '../src/error.ts'
import { exportDrawing } from '../src/export/index.ts'
import { type LineFile, lineFormat } from '../src/export/line-json.ts'
import { planLine } from '../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf, type PlannedQuilt, type ThreadedQuilt, threadQuilt } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { writePlan } from '../src/plan/write-plan.ts'
import { type PlanData, planText } from './support/arbitrary-plan.ts'
import { finishQuilt } from './support/finish-quilt.ts'
import { measureLine } from './support/measure-line.ts'
import { wholePlan } from './support/whole-plans.ts'

const CATALOG = catalogOf(LIBRARY)
const plans = wholePlan({ bands: 3, centre: 56, width: 24, values: false })

const planOf = (text: string) => readPlan(text, CATALOG).plan
const bytesOf = async ({ drawing }: PlannedQuilt): Promise<string> =>
  (await exportDrawing('line-json', drawing)) as string

/** The keys of every group the other way round. */
function backwards(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(backwards)
  if (typeof data !== 'object' || data === null) return data
  return Object.fromEntries(
    Object.entries(data)
      .reverse()
      .map(([key, value]) => [key, backwards(value)]),
  )
}

/** The quilt with its line; none where a start or an end in a band without stitching is refused, rightly, or what a frame can't do. */
function threaded(data: PlanData): ThreadedQuilt | undefined {
  try {
    return threadQuilt(fillQuilt(planOf(planText(data, 'mm')), CATALOG), CATALOG)
  } catch (error) {
    if (error instanceof PlanError && /\/place$|^route\/frame$/.test(error.code)) return undefined
    throw error
  }
}

const runs = fc.sample(plans, { seed: 41, numRuns: 10 }).flatMap((data) => {
  const quilt = threaded(data)
  return quilt ? [{ data, quilt }] : []
})

describe.each(runs.map((run, i) => [i, run] as const))('whole plan %i', (_, { data, quilt }) => {
  const text = planText(data, 'mm')
  const planned = finishQuilt(quilt)
  const { line } = planned.report
  let file: LineFile

  it('is one line, or as few as the pieces can be joined to', () => {
    expect(line.threadStarts).toBe(line.threadStartsBound)
    expect(line.lengthMm).toBeGreaterThanOrEqual(line.lowerBoundMm - 0.01)
  })

  it('is what the report says, measured by other means, and lies where it may', async () => {
    file = lineFormat.parse(JSON.parse(await bytesOf(planned)))
    const measured = measureLine(file, planned.quilt)
    expect(measured.starts).toBe(line.threadStarts)
    expect(Math.abs(measured.lengthMm - line.lengthMm)).toBeLessThan(0.003 * line.lengthMm + 1)
    // Touches of two tight curves count for the samples and not for the report.
    expect(Math.abs(measured.overlapMm - line.overlapMm)).toBeLessThan(0.001 * line.lengthMm + 25)
  })

  it('stitches every piece, and none twice unless it says so', () => {
    const { graph, route } = planLine(lineTaskOf(quilt))
    const times = new Map<number, number>()
    for (const { steps } of route.walks)
      for (const { edge } of steps) times.set(edge, (times.get(edge) ?? 0) + 1)
    let again = 0
    graph.edges.forEach((edge, e) => {
      if (!edge.required) return
      expect(times.get(e) ?? 0, `edge ${e}`).toBeGreaterThanOrEqual(1)
      again += ((times.get(e) ?? 0) - 1) * edge.length
    })
    expect(again).toBeLessThanOrEqual(line.overlapMm + 25)
  })

  it('gives the same bytes again, in another unit, with its keys in another order, and saved and read again', async () => {
    const bytes = await bytesOf(planned)
    const line = async (again: string) =>
      (await exportDrawing(
        'line-json',
        threadQuilt(fillQuilt(planOf(again), CATALOG), CATALOG).drawing,
      )) as string
    expect(await line(text)).toBe(bytes)
    expect(await line(JSON.stringify(backwards(JSON.parse(text))))).toBe(bytes)
    expect(await line(planText(data, 'in'))).toBe(bytes)
    expect(await line(writePlan(planned.plan, CATALOG))).toBe(bytes)
  })
})
