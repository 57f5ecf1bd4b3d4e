import { describe, expect, it } from 'vitest'
import { PlanError } from '../../src/error.ts'
import { arc } from '../../src/geometry/segment.ts'
import { type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import { layStitches } from '../../src/stitch/lay-stitches.ts'
import { countTight, feedRate, reckonTime, TIME_DEFAULTS } from '../../src/stitch/time.ts'
import { inches, MM_PER, toInches } from '../../src/units.ts'

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
  })

  it('is refused for nonsense rates and counts', () => {
    expect(() => reckonTime(nothing, { ...TIME_DEFAULTS, stitchesPerMinute: 0 })).toThrow(PlanError)
    expect(() => reckonTime(nothing, { ...TIME_DEFAULTS, tightCurveSpeed: 2 })).toThrow(PlanError)
    expect(() => reckonTime({ ...nothing, repositions: -1 })).toThrow(PlanError)
  })
})
