import fc from 'fast-check'
import highsLoader from 'highs'
import { expect, it } from 'vitest'
import { solvePostman } from '../../src/route/index.ts'
import { closedExtraByProgram, extraBetweenByProgram } from './highs-postman.ts'
import { smallGraph } from './small-graphs.ts'

const COUNT = 100
/** HiGHS is loaded anew after so many graphs: its memory is not given back. */
const FRESH = 25

it('walks over 100 random graphs never cost less than an integer program solved by HiGHS says, 98 of them the same', async () => {
  const graphs = fc.sample(smallGraph({ vertices: 10, required: 12, optional: 8 }), {
    seed: 3,
    numRuns: COUNT,
  })
  const gaps: number[] = []
  let highs = await highsLoader()
  for (const [i, graph] of graphs.entries()) {
    if (i % FRESH === 0) highs = await highsLoader()
    const ends = i % 2 === 0 ? { closed: true } : { start: 0, end: graph.vertexCount - 1 }
    const { cost, lowerBound } = solvePostman(graph, { ...ends, iterations: 100 })
    const least =
      i % 2 === 0
        ? closedExtraByProgram(highs, graph)
        : extraBetweenByProgram(highs, graph, [0, graph.vertexCount - 1])
    expect(lowerBound).toBeLessThanOrEqual(least + 1e-6)
    expect(cost).toBeGreaterThanOrEqual(least - 1e-6)
    gaps.push(cost - least)
  }
  expect(gaps).toHaveLength(COUNT)
  expect(gaps.filter((gap) => gap < 1e-6).length).toBeGreaterThanOrEqual(98)
})
