import { expect, test } from 'vitest'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from '../support/plan-catalog.ts'

test('a plan of 200 bands is read in less than 100 ms', () => {
  const band = (i: number) =>
    `  - { name: band number ${i}, width: { top: 0.9, right: 0.8, bottom: 0.9, left: 0.8 }, filler: ripple, fabric: "#d9c7a0" }\n`
  const text = `centre: { width: 24, height: 24 }\nbands:\n${Array.from({ length: 200 }, (_, i) => band(i)).join('')}`
  const times = Array.from({ length: 12 }, () => {
    const begin = process.cpuUsage()
    expect(readPlan(text, PLAN_CATALOG).plan.bands).toHaveLength(200)
    return process.cpuUsage(begin).user / 1000
  })
  // The least of several, in processor time: the clock also counts whatever else the machine does.
  expect(Math.min(...times)).toBeLessThan(100)
})
