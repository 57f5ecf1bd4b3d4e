import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  reckonThread,
  spoolsNeeded,
  THREAD_DEFAULTS,
  threadInStitches,
  threadRatio,
} from '../../src/stitch/thread-use.ts'
import { inches, MM_PER } from '../../src/units.ts'
import { refusalsOf } from '../support/refusals.ts'

const perInch = (stitches: number) => inches(1) / stitches
const bare = { thicknessMm: 0, wasteShare: 0, tailMm: 0 }

describe('thread per length of seam', () => {
  // Thread consumption of lockstitch 301, C = 2 + 2 T S: textilecalculations.com, "Calculate amount of sewing thread
  // consumption", problem 2: T = 0.01 in, 10 stitches to the inch, 2.2 in to the inch.
  it('is that of the published problem', () => {
    expect(threadRatio(perInch(10), inches(0.01))).toBeCloseTo(2.2, 9)
  })

  // The same formula tabulated: stitches per inch down, thickness in inches across.
  const thicknesses = [0.02, 0.04, 0.06, 0.08, 0.1, 0.125]
  it.each([
    [8, [2.32, 2.64, 2.96, 3.28, 3.6, 4]],
    [10, [2.4, 2.8, 3.2, 3.6, 4, 4.5]],
    [11, [2.44, 2.88, 3.32, 3.76, 4.2, 4.75]],
    [12, [2.48, 2.96, 3.44, 3.92, 4.4, 5]],
    [14, [2.56, 3.12, 3.68, 4.24, 4.8, 5.5]],
  ])('is that of the table at %i stitches to the inch', (stitches, row) => {
    row.forEach((ratio, i) => {
      expect(Math.abs(threadRatio(perInch(stitches), inches(thicknesses[i]!)) - ratio)).toBeLessThan(1e-9)
    })
  })

  // Coats, Standard Stitch Type Classification: 301 takes about 2.5, needle to bobbin 1 to 1. A textbook's figures
  // ("Section 10.6"): at 7 stitches/cm and 0.5 mm the geometric model gives 2.7; model and maker differ by 12 % at most.
  it('lies within 12 % of the thread maker’s ratio and equals the textbook’s', () => {
    const ratio = threadRatio(10 / 7, 0.5)
    expect(ratio).toBeCloseTo(2.7, 9)
    expect(Math.abs(ratio / 2.5 - 1)).toBeLessThan(0.12)
  })

  // Union Special, training manual 301: the stitch that takes least. The table has 5 for 101, 4.5 for 103, 5.5 for 304.
  it('is less than that of any other stitch of the maker’s table', () => {
    expect(threadRatio(10 / 7, 0.5)).toBeLessThan(4.5)
  })

  it('is shared evenly between needle and bobbin', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.nat(100_000), (lengthMm, count) => {
        const { needleMm, bobbinMm } = threadInStitches({ count, lengthMm }, 1.5)
        expect(needleMm).toBe(bobbinMm)
        expect(needleMm).toBeGreaterThanOrEqual(lengthMm)
      }),
      { seed: 5, numRuns: 100 },
    )
  })

  // Chauhan and Ghosh, Indian J. Fibre & Textile Research: of all factors stitch length explains most of the variation.
  it('depends more on the stitch length than on the thickness, over what quilters use', () => {
    const byLength = threadRatio(1.5, 1) - threadRatio(3.5, 1)
    const byThickness = threadRatio(2.5, 1.2) - threadRatio(2.5, 0.8)
    expect(byLength).toBeGreaterThan(byThickness)
  })
})

describe('the thread for a quilt', () => {
  const job = { count: 40_000, lengthMm: inches(4000), thread: 'cream' }

  // Worked by hand from the same formula: 4,000 in of line, 10 to the inch, T = 0.060 in: 6,400 in a thread.
  it('is that of the worked job, with and without 15 % of waste', () => {
    const settings = { thicknessMm: inches(0.06), wasteShare: 0.15, tailMm: 0 }
    const [use] = reckonThread([job], settings)
    const yards = (m: number) => (m * 1000) / MM_PER.yd
    expect(yards(use!.sewnNeedleM)).toBeCloseTo(6400 / 36, 9)
    expect(yards(use!.sewnBobbinM)).toBeCloseTo(177.778, 3)
    expect(yards(use!.needleM)).toBeCloseTo(204.444, 3)
    expect(yards(use!.bobbinM)).toBeCloseTo(204.444, 3)
    expect(spoolsNeeded(use!.bobbinM, (60 * MM_PER.yd) / 1000)).toBe(4)
  })

  it('is told by colour, with tails for every start', () => {
    const red = { ...job, thread: 'red', count: 10, lengthMm: 25 }
    const uses = reckonThread([job, red, job], { ...bare, tailMm: 100 })
    expect(uses.map(({ thread, starts }) => [thread, starts])).toEqual([
      ['cream', 2],
      ['red', 1],
    ])
    expect(uses[1]!.needleM).toBeCloseTo(0.025 + 0.2, 9)
    expect(uses[0]!.needleM).toBeCloseTo((2 * inches(4000)) / 1000 + 0.4, 9)
  })

  // A thread maker's bulletin adds 15 % to 6.63 yd and gets 7.62 yd.
  it('adds waste as the maker does', () => {
    const [use] = reckonThread([{ ...job, count: 0, lengthMm: 6630 }], { ...bare, wasteShare: 0.15 })
    expect(use!.needleM).toBeCloseTo(7.62, 2)
  })

  it('is refused for nonsense settings', () => {
    const refused = (broken: object) =>
      refusalsOf(() => reckonThread([job], { ...THREAD_DEFAULTS, ...broken }))
    expect(refused({ thicknessMm: -1, wasteShare: 3, tailMm: Number.NaN })).toEqual([
      'thread/setting thread.thickness: -1 mm is not allowed; it may be 0 to 25 mm',
      'thread/setting thread.waste: 3 (a share) is not allowed; it may be 0 to 1 (a share)',
      'thread/setting thread.tail: NaN mm is not allowed; it may be 0 to 1000 mm',
    ])
    expect(refused({ thicknessMm: 25, wasteShare: 1, tailMm: 1000 })).toEqual([])
    expect(refused({ thicknessMm: 25.01 })).toHaveLength(1)
    expect(refused({ tailMm: 1001 })).toHaveLength(1)
    expect(refusalsOf(() => spoolsNeeded(10, 0))).toEqual([
      'thread/spool thread.spool: 0 m is not allowed; it may be 1 to 100000 m',
    ])
  })

  it('is that of as many spools as hold it, and not one more for a rounding', () => {
    expect([0, 99.9, 100, 100.1, 200, 0.1 * 3 * 1000].map((m) => spoolsNeeded(m, 100))).toEqual([
      0, 1, 1, 2, 2, 3,
    ])
  })
})
