import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../motifs/index.ts'
import { compareStrategies } from '../src/compare.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { chooseStrategy, type StrategyFigures, strategiesText } from '../src/report/strategies.ts'

const catalog = { motifs: MOTIFS }
const file = {
  centre: { width: 12, height: 12 },
  bands: [
    { name: 'sand', width: 1, filler: 'bracket' },
    { name: 'rope', width: 1.5, filler: 'loop-line' },
    { name: 'foam', width: 2, filler: 'scallop' },
  ],
  machine: { reach: [9, 9] },
}
const compared = (more: object = {}) =>
  compareStrategies(readPlan(JSON.stringify({ ...file, ...more }), catalog).plan, catalog)

describe('comparing strategies', () => {
  const comparison = compared()

  it('tries areas, laps and frame passes, each without and with ditch stitching', () => {
    expect(comparison.strategies.map(({ way, ditch }) => `${way} ${ditch}`)).toEqual([
      'areas false',
      'areas true',
      'laps false',
      'laps true',
      'frame false',
      'frame true',
    ])
    for (const s of comparison.strategies) expect(s.starts).toBeGreaterThanOrEqual(s.startsBound)
  })

  it('takes area by area on a domestic machine, because the quilt is moved less', () => {
    expect(comparison.choice).toBe(0)
    expect(comparison.why).toMatch(/moved \d+ times, not \d+ as lap by lap/)
    expect(comparison.strategies[0]!.moves).toBeLessThan(comparison.strategies[2]!.moves)
  })

  it('takes more thread with ditch stitching', () => {
    const { strategies } = comparison
    for (const i of [0, 2, 4]) expect(strategies[i + 1]!.threadM).toBeGreaterThan(strategies[i]!.threadM)
  })

  it('takes frame passes if the plan is for a frame, and keeps the seams asked for', () => {
    const framed = compared({ machine: { kind: 'frame', throat: 9 }, route: { ditch: [{ inside: 'rope' }] } })
    expect(framed.strategies[framed.choice]).toMatchObject({ way: 'frame', ditch: true })
  })

  it('is told in a table with the choice marked', () => {
    const text = strategiesText(comparison, 'in')
    expect(text.split('\n')[1]).toMatch(/^\* area by area +1 /)
    expect(text).toMatch(/\nTake area by area: /)
  })
})

it('fewer starts come before everything else', () => {
  const figures = (way: StrategyFigures['way'], starts: number, overlapMm: number): StrategyFigures => ({
    way,
    ditch: false,
    starts,
    startsBound: 1,
    overlapMm,
    travelMm: 0,
    moves: 10,
    turns: 0,
    minutes: 60,
    threadM: 100,
  })
  const { choice, why } = chooseStrategy([figures('areas', 2, 0), figures('laps', 1, 900)], {
    isFrame: false,
    ditch: false,
    turning: 0,
  })
  expect(choice).toBe(1)
  expect(why).toMatch(/1 thread start; area by area needs 2/)
})
