import fc from 'fast-check'
import { expect, it } from 'vitest'
import { MOTIFS } from '../../motifs/index.ts'
import { planLine } from '../../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { anyPlan } from '../support/random-plans.ts'

it('any plan is stitched whole, in as few starts as can be, with hardly any overlap', () => {
  const catalog = { motifs: MOTIFS }
  fc.assert(
    fc.property(anyPlan(4), (file) => {
      const { plan } = readPlan(JSON.stringify(file), catalog)
      const { graph, route } = planLine(lineTaskOf(fillQuilt(plan, catalog)))
      const stitched = new Set(route.walks.flatMap(({ steps }) => steps.map(({ edge }) => edge)))
      expect(graph.edges.every(({ required }, edge) => !required || stitched.has(edge))).toBe(true)
      expect(route.walks).toHaveLength(route.startsBound)
      const length = graph.edges.reduce((sum, edge) => sum + (edge.required ? edge.length : 0), 0)
      expect(route.overlapMm).toBeLessThanOrEqual(0.005 * length)
    }),
    { seed: 131, numRuns: 8 },
  )
})
