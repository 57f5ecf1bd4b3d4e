import fc from 'fast-check'
import highsLoader from 'highs'
import { describe, expect, it } from 'vitest'
import { solvePostman } from '../../src/route/index.ts'
import { closedExtraByProgram } from './highs-postman.ts'
import { smallGraph } from './small-graphs.ts'

describe('closed walks on graphs too large for exhaustive search', () => {
  it('cost what an integer program solved by HiGHS says', async () => {
    const highs = await highsLoader()
    fc.assert(
      fc.property(smallGraph({ vertices: 12, required: 14, optional: 10 }), (graph) => {
        const { cost, lowerBound } = solvePostman(graph, { closed: true, iterations: 100 })
        expect(cost).toBeCloseTo(closedExtraByProgram(highs, graph), 6)
        expect(lowerBound).toBeLessThanOrEqual(cost)
      }),
      { seed: 3, numRuns: 15 },
    )
  })
})
