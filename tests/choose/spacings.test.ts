import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { openGaps } from '../../src/choose/open-gaps.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { fillQuilt, type PlannedQuilt, planQuilt } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { writePlan } from '../../src/plan/write-plan.ts'
import { chordsOf } from '../../src/report/measure-line.ts'
import { bruteGap } from '../support/brute-gap.ts'
import { openPlan, smallOpenPlan } from '../support/open-plans.ts'

const CATALOG = catalogOf(LIBRARY)
const planOf = (file: unknown) =>
  readPlan(typeof file === 'string' ? file : JSON.stringify(file), CATALOG).plan
const planned = (file: unknown): PlannedQuilt => planQuilt(planOf(file), { catalog: CATALOG })

/** Points of the line itself. */
const chainsOf = ({ drawing }: PlannedQuilt) =>
  chordsOf(drawing.lines).map(({ xs, ys }) => Array.from(xs, (x, i) => [x, ys[i]!] as const))

describe('with spacing: auto, on any plan', () => {
  // The 200 plans of the long run are those of `npx tsx bench/choose.ts`; its figures stand in the contributors' guide.
  it('the largest gap is within the limit, or the report says why not and by how much; neighbours are even, or it says why not', () => {
    let [within, even, count] = [0, 0, 0]
    fc.assert(
      fc.property(smallOpenPlan, (file) => {
        const { report } = planned(file)
        const { gap, evenness, choices } = report
        const whole = choices!.overLimit.find(({ at }) => at === 'quilt')
        count++
        if (gap.withinLimit) {
          within++
          expect(choices!.overLimit).toEqual([])
        } else {
          expect(whole?.why).toMatch(/\w/)
          expect(whole!.gapMm).toBe(gap.largestMm)
          expect(whole!.overMm).toBeCloseTo(gap.largestMm - gap.limitMm, 2)
        }
        const isEven = evenness.worstRatio !== null && evenness.worstRatio <= 3
        if (isEven) even++
        expect(choices!.uneven.length > 0).toBe(!isEven)
        for (const { why } of choices!.uneven) expect(why).toMatch(/\w/)
      }),
      { seed: 1, numRuns: 12 },
    )
    // Else the law would say nothing.
    expect(within).toBeGreaterThan(count / 3)
    expect(even).toBeGreaterThan((2 * count) / 3)
  }, 120_000)

  it('the gap that is told is that of a grid of brute force', () => {
    fc.assert(
      fc.property(smallOpenPlan, (file) => {
        const quilt = planned(file)
        const step = 3
        const brute = bruteGap(chainsOf(quilt), [quilt.quilt.rings.at(-1)!], step)
        const told = quilt.report.gap.largestMm
        expect(brute).toBeLessThanOrEqual(told + 1)
        expect(brute).toBeGreaterThanOrEqual(told - step * Math.SQRT2 - 0.2)
      }),
      { seed: 2, numRuns: 4 },
    )
  }, 120_000)

  it('the plan with its choices made, written and read again, is the same quilt with nothing left to choose', () => {
    fc.assert(
      fc.property(openPlan(3), (file) => {
        const { plan, pieces } = fillQuilt(planOf(file), CATALOG)
        const again = fillQuilt(planOf(writePlan(plan, CATALOG)), CATALOG)
        expect(again.choices).toBeUndefined()
        expect(JSON.stringify(again.pieces.pieces)).toBe(JSON.stringify(pieces.pieces))
      }),
      { seed: 3, numRuns: 5 },
    )
  }, 120_000)
})

const wide = (values: string, more = '') => `
centre: { width: 12, height: 12, filler: { crosshatch: { spacing: 0.6 } } }
bands:
  - { name: wide, width: 3, filler: ${values} }
batting: { limit: 0.9 }
${more}`

describe('a spacing', () => {
  const spacingOf = (file: string) => fillQuilt(planOf(file), CATALOG).plan.bands[0]!.filler!.values.spacing

  it('that the plan gives is kept, with spacing: auto as well', () => {
    expect(spacingOf(wide('{ s-echo: { spacing: 0.8 } }', 'spacing: auto'))).toBeCloseTo(20.32)
  })

  it('is the filler’s own where the plan does not ask for auto', () => {
    expect(spacingOf(wide('s-echo'))).toBeCloseTo(10.16)
  })

  it('is made closer until the batting’s limit is kept, and the reason says so', () => {
    const { report } = planned(
      wide('piano-keys', 'spacing: auto\ndensity: light').replace('0.9', '0.45').replace('0.6', '0.25'),
    )
    expect(report.gap.withinLimit).toBe(true)
    expect(report.choices!.made[0]!.reason).toMatch(/closer than its usual 1\/2 in, to keep gaps within/)
  })

  it('keeps the batting’s limit even beside a band that it cannot be even with', () => {
    const { plan, quilt, pieces, choices } = fillQuilt(
      planOf(`
centre: { width: 8, height: 8, filler: crosshatch }
bands:
  - { name: shore, width: 4, filler: scallop }
  - { name: pier, width: 5, filler: piano-keys }
  - { name: rim, width: 4, filler: scallop }
batting: { limit: 0.75 }
spacing: auto`),
      CATALOG,
    )
    // Every gap that is left reaches into a scallop's band: it leaves its whole width open.
    const over = openGaps({ quilt, pieces }, plan.batting.limit)
    expect(over.length).toBeGreaterThan(0)
    expect(over.filter(({ bands }) => bands.every((band) => band === 1))).toEqual([])
    expect(choices!.whyOpen([0])).toContain('scallop')
  })

  it('is smaller the denser the quilting is meant to be', () => {
    const spacings = ['light', 'medium', 'dense'].map((density) =>
      Number(
        spacingOf(wide('s-echo', `spacing: auto\ndensity: ${density}`).replace('limit: 0.9', 'limit: 8')),
      ),
    )
    expect(spacings[0]!).toBeGreaterThan(spacings[1]!)
    expect(spacings[1]!).toBeGreaterThan(spacings[2]!)
  })

  it('of a side, of patches and of the centre is chosen as well', () => {
    const { choices } = fillQuilt(
      planOf(`
centre: { width: 10, height: 12, filler: meander }
bands:
  - { name: sand, width: 2, filler: ribbon, sides: { left: piano-keys } }
  - { name: stars, width: 3, pieced: { unit: square-on-point }, filler: { diamond: echo, triangle: none } }
spacing: auto`),
      CATALOG,
    )
    expect(choices!.made.map(({ at, part, what, filler }) => [at, part, what, filler])).toEqual([
      ['centre', '', 'spacing', 'meander'],
      ['sand', '', 'spacing', 'ribbon'],
      ['sand', 'left', 'spacing', 'piano-keys'],
      ['stars', 'diamond', 'spacing', 'echo'],
    ])
  })

  it('that cannot keep the limit is told with the reason and the measure', () => {
    const { report } = planned(`
centre: { width: 8, height: 8, filler: crosshatch }
bands: [{ name: shore, width: 4, filler: scallop }]
batting: { limit: 2 }
spacing: auto`)
    const over = report.choices!.overLimit.find(({ at }) => at === 'shore')!
    expect(over.overMm).toBeGreaterThan(0)
    expect(over.why).toMatch(/the scallop of "shore" leaves .* at its closest/)
    expect(report.warnings.find(({ code }) => code === 'check/gap')?.message).toContain('at its closest')
  })
})
