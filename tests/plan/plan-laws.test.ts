import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { parse, stringify } from 'yaml'
import type { Plan } from '../../src/plan/plan.ts'
import type { PlanFile } from '../../src/plan/schema.ts'
import { starterPlan } from '../../src/plan/starter.ts'
import { writePlan } from '../../src/plan/write-plan.ts'
import { anyPlan } from '../support/any-plan.ts'
import { inUnits, shuffleKeys } from '../support/rewrite-plan.ts'
import { SAMPLES } from '../support/samples.ts'
import { planOf, read } from './complaints.ts'

const plans = anyPlan({ bands: 12, centre: 60, width: 6, values: true })
const runs = { seed: 11, numRuns: 150 }

/** Every number of one plan is within 1e-9 of the other's; all else is the same. */
function expectSame(a: unknown, b: unknown, at = 'plan'): void {
  if (typeof a === 'number' && typeof b === 'number')
    expect(Math.abs(a - b), `${at}: ${a} and ${b}`).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(a)))
  else if (typeof a === 'object' && a !== null && typeof b === 'object' && b !== null) {
    expect(Object.keys(b).sort(), at).toEqual(Object.keys(a).sort())
    for (const key of Object.keys(a)) expectSame((a as never)[key], (b as never)[key], `${at}.${key}`)
  } else expect(b, at).toBe(a)
}

const withoutUnits = ({ units: _, ...plan }: Plan): unknown => plan

describe('any plan', () => {
  it('is the same in inches, centimetres and millimetres', () => {
    fc.assert(
      fc.property(plans, (file) => {
        const plan = withoutUnits(planOf(file))
        for (const units of ['cm', 'mm'] as const)
          expectSame(plan, withoutUnits(planOf(inUnits(file, units))))
      }),
      runs,
    )
  })

  it('is the same whatever the order of its keys', () => {
    fc.assert(
      fc.property(plans, fc.integer(), (file, seed) => {
        expect(JSON.stringify(planOf(shuffleKeys(file, seed)))).toBe(JSON.stringify(planOf(file)))
      }),
      runs,
    )
  })

  it('is the same as JSON and as YAML', () => {
    fc.assert(
      fc.property(plans, (file) => {
        expect(read(stringify(file)).plan).toEqual(planOf(file))
        expect(read(JSON.stringify(file, null, '\t')).plan).toEqual(planOf(file))
      }),
      runs,
    )
  })

  it('is the same when it is written and read again, and is then written the same', () => {
    fc.assert(
      fc.property(plans, (file) => {
        const text = writePlan(file)
        const again = read(text)
        expect(again.plan).toEqual(planOf(file))
        expect(again.file).toEqual(read(JSON.stringify(file)).file)
        expect(writePlan(again.file)).toBe(text)
      }),
      runs,
    )
  })
})

describe('the plan to start from', () => {
  it('is read without a problem or a warning', () => {
    expect(read(starterPlan()).warnings).toEqual([])
  })

  it('says by a comment what each of its keys is for', () => {
    expect(starterPlan().match(/^# /gm)!.length).toBeGreaterThanOrEqual(
      Object.keys(parse(starterPlan())).length - 1,
    )
  })
})

describe.each(Object.entries(SAMPLES))('the sample %s', (_, text) => {
  it('is written as a plan that reads the same', () => {
    const { file, plan } = read(text)
    expect(read(writePlan(file)).plan).toEqual(plan)
  })
})

describe('a written plan', () => {
  it('has a band a line, and colours in quotes', () => {
    const file: PlanFile = {
      bands: [
        { filler: 'scallop', width: 2, fabric: '#d9c7a0' },
        { width: { top: 1, right: 2, bottom: 1, left: 2 } },
      ],
      centre: { height: 30, width: 24 },
      title: 'Harbour: lamp',
    }
    expect(writePlan(file)).toMatchInlineSnapshot(`
      "title: "Harbour: lamp"
      centre: { width: 24, height: 30 }
      bands:
        - { width: 2, filler: scallop, fabric: "#d9c7a0" }
        - { width: { top: 1, right: 2, bottom: 1, left: 2 } }
      "
    `)
  })

  it('is refused if the file is no plan', () => {
    expect(() => writePlan({ bands: [] } as unknown as PlanFile)).toThrow()
  })
})
