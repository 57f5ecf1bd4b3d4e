import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { movesOfLaps } from '../../src/pieces/choose-work.ts'
import { costOfRoute, measureRoutes } from '../../src/pieces/judge-route.ts'
import { type PlannedLine, planLine } from '../../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { anyPlan } from '../support/random-plans.ts'
import { SAMPLES } from '../support/samples.ts'

const catalog = catalogOf(LIBRARY)
type Work = 'any' | 'areas' | 'laps'

/** Plans a line in each way, over the same pieces, with what each costs. */
function lines(text: string) {
  const task = lineTaskOf(fillQuilt(readPlan(text, catalog).plan, catalog))
  const { pieces, reach, wishes } = task
  const worked = (work: Work) => planLine({ ...task, wishes: { ...wishes, work } })
  const figuresOf = ({ net, route }: PlannedLine) =>
    measureRoutes({ pieces, net, reach, turning: wishes.turning })(route)
  const costOf = (line: PlannedLine) => costOfRoute(figuresOf(line), wishes.turning?.weight)
  return { task, worked, figuresOf, costOf }
}

describe('a plan that does not say how it is worked', () => {
  it('costs no more than area by area and lap by lap, each planned by itself', () => {
    fc.assert(
      fc.property(anyPlan(3), (file) => {
        const { worked, costOf } = lines(JSON.stringify(file))
        const [any, areas, laps] = [worked('any'), worked('areas'), worked('laps')]
        expect(costOf(any)).toBeLessThanOrEqual(costOf(areas) + 1e-6)
        if (any.strategy.why !== 'no bands are woven together')
          expect(costOf(any)).toBeLessThanOrEqual(costOf(laps) + 1e-6)
      }),
      { seed: 2, numRuns: 6 },
    )
  })

  it('is worked area by area on the nine-band sample, where laps need not even be planned', () => {
    const { worked, figuresOf, task } = lines(SAMPLES['harbour-medallion']!)
    const any = worked('any')
    const laps = worked('laps')
    const { least } = movesOfLaps(task.pieces, laps.net, task.reach)
    expect(any.strategy).toEqual({
      way: 'areas',
      why: `lap by lap moves the quilt at least ${least} times, not ${figuresOf(any).moves}`,
    })
    expect(figuresOf(laps).moves).toBeGreaterThanOrEqual(least)
    expect(least).toBeGreaterThan(figuresOf(any).moves)
  })

  /** Patches whose ways through leave many ends between two bands that go round. */
  const PATCHES_BETWEEN = JSON.stringify({
    centre: { width: 35, height: 20 },
    bands: [
      { name: 'inner', width: 0.875, filler: 'square-key', corners: 'butted' },
      {
        name: 'triangles',
        width: 3.75,
        pieced: { unit: 'quarter-square-triangle' },
        filler: { dark: 'swirl', light: 'swirl' },
      },
      { name: 'outer', width: 1.625, filler: 'wave', corners: 'butted' },
    ],
    machine: { reach: [12, 12] },
  })

  it('is worked lap by lap where that travels less, and says so; one that says how is worked so', () => {
    const { worked, costOf } = lines(PATCHES_BETWEEN)
    const [any, areas, laps] = [worked('any'), worked('areas'), worked('laps')]
    expect(any.strategy).toEqual({ way: 'laps', why: 'less is travelled and stitched over' })
    expect(costOf(any)).toBeLessThan(costOf(areas))
    expect(any.route.walks).toEqual(laps.route.walks)
    expect(areas.strategy).toEqual({ way: 'areas', why: 'the plan asks for it' })
    expect(laps.strategy).toEqual({ way: 'laps', why: 'the plan asks for it' })
  })
})
