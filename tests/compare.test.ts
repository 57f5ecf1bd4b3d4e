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

describe('what speaks for a strategy', () => {
  const base: StrategyFigures = {
    way: 'areas',
    ditch: false,
    starts: 1,
    startsBound: 1,
    overlapMm: 0,
    travelMm: 0,
    moves: 10,
    turns: 0,
    minutes: 60,
    threadM: 100,
  }
  const laps = (more: Partial<StrategyFigures>): StrategyFigures => ({ ...base, way: 'laps', ...more })
  const why = (areas: Partial<StrategyFigures>, other: Partial<StrategyFigures>, turning = 0) =>
    chooseStrategy([{ ...base, ...areas }, laps(other)], { isFrame: false, ditch: false, turning })

  it.each([
    [{}, { starts: 2 }, '1 thread start; lap by lap needs 2'],
    [{ starts: 2 }, { starts: 3 }, '2 thread starts; lap by lap needs 3'],
    [{}, { overlapMm: 800 }, 'less is stitched over than lap by lap'],
    [{}, { moves: 14 }, 'the quilt is moved 10 times, not 14 as lap by lap'],
    [{}, { travelMm: 900 }, 'less travel than lap by lap'],
    [{}, {}, 'no worse than lap by lap'],
  ])('is its greatest gain: %j before %j', (areas, other, words) => {
    expect(why(areas, other)).toEqual({ choice: 0, why: `${words} (without ditch stitching, as planned)` })
  })

  it('is how much the quilt is turned, where that weighs anything', () => {
    expect(why({}, { turns: 50 }, 1).why).toMatch(/^the quilt is turned less than lap by lap/)
    expect(why({}, { turns: 50 }, 0).why).toMatch(/^no worse than/)
  })

  it('is a frame where the plan has one, with the seams that are asked for', () => {
    const frame: StrategyFigures = { ...base, way: 'frame', ditch: true }
    expect(chooseStrategy([base, frame], { isFrame: true, ditch: true, turning: 0 })).toEqual({
      choice: 1,
      why: 'the plan is for a frame: it is worked strip by strip (with the seams that the plan asks for)',
    })
  })

  it('tells in its table where starts are more than they must be', () => {
    const strategies = [base, laps({ starts: 3, startsBound: 2 })]
    const text = strategiesText({ strategies, choice: 0, why: 'x' }, 'mm')
    expect(text).toMatch(/^\* area by area +1 {2}/m)
    expect(text).toMatch(/^ {2}lap by lap +3 \(at least 2\)/m)
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
