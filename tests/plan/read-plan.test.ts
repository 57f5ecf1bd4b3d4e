import { expect, test } from 'vitest'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'
import { placed, problemsOf } from '../support/plan-problems.ts'

const least = `centre: { width: 24, height: 30 }
bands:
  - { width: 1 }
`

test('a plan may say no more than the sizes of its centre and one band', () => {
  const { plan, warnings } = readPlan(least, PLAN_CATALOG)
  expect(warnings).toEqual([])
  expect(plan.centre).toMatchObject({ width: 609.6, height: 762, filler: undefined })
  expect(plan.bands[0]).toMatchObject({ width: { top: 25.4, left: 25.4 }, corners: 'mitred', auto: false })
  expect(plan.thread).toMatchObject({ tex: 30, waste: 0.15 })
})

test('all problems of a file come at once, in its order, each with its place', () => {
  const text = `units: inch
titel: Harbour
centre: { width: 24, height: 0 }
bands:
  - { width: -1, filler: riple }
`
  expect(problemsOf(text).map(placed)).toEqual([
    '1:8 plan/choice units',
    '2:1 plan/unknown-key titel',
    '3:30 plan/length centre.height',
    '5:14 plan/length bands[0].width',
    '5:26 plan/unknown-filler bands[0].filler',
  ])
})
