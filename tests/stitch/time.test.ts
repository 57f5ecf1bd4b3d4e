import { describe, expect, it } from 'vitest'
import { arc } from '../../src/geometry/segment.ts'
import { type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import { layStitches } from '../../src/stitch/lay-stitches.ts'
import { countTight, feedRate, reckonTime, TIME_DEFAULTS } from '../../src/stitch/time.ts'
import { inches, MM_PER, toInches } from '../../src/units.ts'
import { refusalsOf } from '../support/refusals.ts'

const sewn = (stroke: Stroke) => layStitches({ thread: 'cream', parts: [{ kind: 'fill', area: 0, stroke }] })
const nothing = { starts: [], repositions: 0, bobbinChanges: 0, frameAdvances: 0, threadChanges: 0, turns: 0 }

describe('sewing speed', () => {
  // A&E bulletin "Stitches per inch - what you should know": 5,000 stitches a minute sew 17.4 yd/min at 8 to the inch
  // and 9.9 yd/min at 14.
  it.each([
    [8, 17.4],
    [14, 9.9],
  ])('at %i stitches to the inch is the published %f yd/min', (perInch, yards) => {
    expect(Math.abs(feedRate(5000, inches(1) / perInch) / MM_PER.yd - yards)).toBeLessThan(0.05)
  })

  // onlineclothingstudy.com 2012/07: 200 cm at 4 stitches/cm in 12 s are 4,000 stitches a minute.
  it('of the published loop is 4,000 stitches a minute', () => {
    expect(2000 / feedRate(4000, 2.5)).toBeCloseTo(12 / 60, 12)
  })

  it('of 1,500 stitches a minute at 10 to the inch is 150 inches a minute', () => {
    expect(toInches(feedRate(1500, 2.54))).toBeCloseTo(150, 9)
  })
})

describe('the time a quilt takes', () => {
  it('adds up what its table says', () => {
    const starts = [
      sewn(
        strokeThrough([
          [0, 0],
          [1500, 0],
        ]),
      ),
    ]
    const work = { starts, repositions: 4, bobbinChanges: 2, frameAdvances: 3, threadChanges: 2, turns: 6 }
    const rates = { ...TIME_DEFAULTS, stitchesPerMinute: 100, repositionSeconds: 30, bobbinSeconds: 60 }
    const { minutes, entries } = reckonTime(work, {
      ...rates,
      startSeconds: 90,
      advanceSeconds: 120,
      threadSeconds: 150,
      turnSeconds: 20,
    })
    expect(minutes).toBeCloseTo(starts[0]!.count / 100 + 4 * 0.5 + 2 + 1.5 + 3 * 2 + 2 * 2.5 + 6 / 3, 9)
    expect(entries.reduce((sum, entry) => sum + entry.minutes, 0)).toBeCloseTo(minutes, 12)
  })

  it('is longer where curves are tight', () => {
    const circle = (radius: number) =>
      sewn({ start: [radius, 0], segments: [arc([radius, 0], [0, 0], 2 * Math.PI)] })
    const [tight, wide] = [circle(5), circle(7)]
    const off = { ...TIME_DEFAULTS, startSeconds: 0 }
    expect(countTight(wide, 6)).toBe(0)
    expect(countTight(tight, 6)).toBeGreaterThan(tight.count - 14)
    const time = (stitches: typeof tight) => reckonTime({ ...nothing, starts: [stitches] }, off).minutes
    expect(time(wide)).toBeCloseTo(wide.count / 600, 9)
    expect(time(tight) / (tight.count / 600)).toBeGreaterThan(1.4)
    const [all, slow] = reckonTime({ ...nothing, starts: [tight, wide] }, off).entries
    expect(slow!.count).toBe(countTight(tight, 6))
    expect(all!.count + slow!.count).toBe(tight.count + wide.count)
  })

  it('is refused for nonsense rates and counts', () => {
    const none = Object.fromEntries(Object.keys(TIME_DEFAULTS).map((key) => [key, -1]))
    expect(refusalsOf(() => reckonTime(nothing, none as never))).toEqual([
      'time/setting time.speed: -1 stitches/min is not allowed; it may be 10 to 10000 stitches/min',
      'time/setting time.tightCurveSpeed: -1 (a share) is not allowed; it may be 0.05 to 1 (a share)',
      'time/setting time.tightRadius: -1 mm is not allowed; it may be 0 to 1000 mm',
      ...['reposition', 'bobbin', 'start', 'advance', 'thread', 'turn'].map(
        (what) => `time/setting time.${what}: -1 s is not allowed; it may be 0 to 7200 s`,
      ),
    ])
    expect(
      refusalsOf(() =>
        reckonTime({
          ...nothing,
          repositions: -1,
          bobbinChanges: -2,
          frameAdvances: -3,
          threadChanges: -4,
          turns: Number.NaN,
        }),
      ),
    ).toEqual([
      'time/count repositions: -1 times is not allowed; it may be 0 to 1000000 times',
      'time/count bobbinChanges: -2 times is not allowed; it may be 0 to 1000000 times',
      'time/count frameAdvances: -3 times is not allowed; it may be 0 to 1000000 times',
      'time/count threadChanges: -4 times is not allowed; it may be 0 to 1000000 times',
      'time/count turns: NaN times is not allowed; it may be 0 to 1000000 times',
    ])
  })

  it('is told row by row: what, how often, at which rate', () => {
    const work = {
      starts: [],
      repositions: 4,
      bobbinChanges: 2,
      frameAdvances: 3,
      threadChanges: 5,
      turns: 6,
    }
    const rows = reckonTime(work).entries.map(({ what, count, rate, rateUnit }) => [
      what,
      count,
      rate,
      rateUnit,
    ])
    expect(rows).toEqual([
      ['stitches', 0, 600, 'stitches/min'],
      ['stitches in tight curves', 0, 360, 'stitches/min'],
      ['starts and ends of thread', 0, 90, 's each'],
      ['repositions', 4, 60, 's each'],
      ['bobbin changes', 2, 120, 's each'],
      ['frame advances', 3, 180, 's each'],
      ['changes of thread', 5, 150, 's each'],
      ['full turns of the quilt', 6, 20, 's each'],
    ])
  })

  // A chord c of a circle of radius R spans an angle of 2 asin(c / 2R): on R = 5 a chain of chords of 1.
  it('counts a stitch as tight by the circle that its corners lie on, whichever way it turns', () => {
    const chain = (turns: readonly number[]): Parameters<typeof countTight>[0] => {
      const [xs, ys] = [[0], [0]]
      let heading = 0.4
      for (const turn of [0, ...turns]) {
        heading += turn
        xs.push(xs.at(-1)! + Math.cos(heading))
        ys.push(ys.at(-1)! + Math.sin(heading))
      }
      return { count: xs.length - 1, xs: Float64Array.from(xs), ys: Float64Array.from(ys) } as never
    }
    const bend = 2 * Math.asin(1 / 10)
    for (const sign of [-1, 1]) {
      const round = chain([bend, bend, bend].map((turn) => sign * turn))
      expect(countTight(round, 5.001)).toBe(4)
      expect(countTight(round, 4.999)).toBe(0)
      expect(countTight(chain([0, 0, sign * bend, 0, 0]), 5.001)).toBe(2)
      expect(countTight(chain([0, sign * Math.PI * 0.9, 0, 0]), 5)).toBe(2)
      expect(countTight(chain([sign * bend, 0, 0, 0, sign * bend]), 5.001)).toBe(4)
    }
    expect(countTight(chain([]), 1000)).toBe(0)
  })
})
