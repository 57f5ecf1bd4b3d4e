import { describe, expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { exportDrawing } from '../src/export/index.ts'
import { acceptPlan, fillQuilt, type ThreadedQuilt, threadQuilt } from '../src/pipeline.ts'
import type { Plan } from '../src/plan/plan.ts'
import { replannerOf } from '../src/replan.ts'
import { finishQuilt } from './support/finish-quilt.ts'
import { SAMPLES } from './support/samples.ts'

const CATALOG = catalogOf(LIBRARY)
const planOf = (file: unknown): Plan => acceptPlan(stringify(file), CATALOG).plan
/** The inner bands of a sample. */
const sample = () => {
  const file = parse(SAMPLES['two-bells']!)
  return { ...file, bands: file.bands.slice(0, 3) }
}

const reportOf = (threaded: ThreadedQuilt) => finishQuilt(threaded).report

type Change = (file: ReturnType<typeof sample>) => void

/** Changes one after the other, each of another part of the plan. */
const CHANGES: Readonly<Record<string, Change>> = {
  'the fabric of a band': (file) => (file.bands[0].fabric = '#123456'),
  'the colour of the thread': (file) => (file.thread.colour = '#800000'),
  'the width of a band': (file) => (file.bands[0].cut = 2),
  'the start of the line': (file) => (file.route = { start: 'bottom-right' }),
  'the name of a band': (file) => (file.bands[1].name = 'bell rope'),
  'the filler of a band': (file) => (file.bands[1].filler = 'wave'),
  'the reach of the machine': (file) => (file.machine.reach = [12, 12]),
  'the length of a stitch': (file) => (file.stitch = { length: '3 mm' }),
  'the limit of the batting': (file) => (file.batting.limit = 3),
  // A frame begins at the top.
  'the kind of machine': (file) => Object.assign(file, { machine: { kind: 'frame', throat: 14 }, route: {} }),
}

describe('a plan that follows another comes out as if it were planned alone', () => {
  const replanner = replannerOf(CATALOG)
  const file = sample()
  replanner.thread(replanner.fill(planOf(file)))
  for (const [what, change] of Object.entries(CHANGES))
    test(`after a change of ${what}`, async () => {
      change(file)
      const plan = planOf(file)
      const [again, alone] = [
        replanner.thread(replanner.fill(plan)),
        threadQuilt(fillQuilt(plan, CATALOG), CATALOG),
      ]
      expect(await exportDrawing('picture', again.drawing)).toBe(
        await exportDrawing('picture', alone.drawing),
      )
      expect(reportOf(again)).toEqual(reportOf(alone))
    })
})

test('what a change does not touch is not made again', () => {
  const replanner = replannerOf(CATALOG)
  const file = sample()
  const before = replanner.thread(replanner.fill(planOf(file)))
  file.bands[0].fabric = '#123456'
  const recoloured = replanner.thread(replanner.fill(planOf(file)))
  expect(recoloured.pieces).toBe(before.pieces)
  expect(recoloured.line).toBe(before.line)
  file.route = { start: 'top-left' }
  const restarted = replanner.thread(replanner.fill(planOf(file)))
  expect(restarted.pieces).toBe(before.pieces)
  expect(restarted.line).not.toBe(before.line)
})
