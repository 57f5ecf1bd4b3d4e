import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type RouteGraph, solvePostman } from '../../src/route/index.ts'
import { Surroundings } from '../../src/route/near-part.ts'
import { NearSearch } from '../../src/route/near-search.ts'
import { networkOf } from '../../src/route/postman.ts'
import { Stage } from '../../src/route/stage.ts'
import { stagesOf, Workshop } from '../../src/route/stage-work.ts'
import { ROUTE_WEIGHTS } from '../../src/route/weights.ts'

const SIDE = 22
const LONGEST = 16

/** A grid of seams, its lengths dealt round, with a comb in it to be stitched: a row with a tooth at every third vertex. */
function gridWith(lengths: readonly number[], comb: { at: number; row: number }): RouteGraph {
  const edges: RouteGraph['edges'][number][] = []
  const add = (u: number, v: number) =>
    edges.push({ u, v, length: 1 + lengths[edges.length % lengths.length]!, required: false })
  for (let x = 0; x < SIDE * SIDE; x++) {
    if (x % SIDE < SIDE - 1) add(x, x + 1)
    if (x + SIDE < SIDE * SIDE) add(x, x + SIDE)
  }
  for (let u = comb.at; u < comb.at + comb.row; u++) {
    edges.push({ u, v: u + 1, length: 5, required: true })
    if (u % 3 === 0) edges.push({ u, v: u + SIDE, length: 7, required: true })
  }
  return { vertexCount: SIDE * SIDE, edges }
}

/** The comb as a stage, with ways in and out. */
function stageOf(graph: RouteGraph, ports: readonly number[]): Stage {
  const network = networkOf(graph, ROUTE_WEIGHTS)
  const required = graph.edges.flatMap((edge, e) => (edge.required ? [e] : []))
  const [work] = stagesOf(new Workshop(network), [{ area: 0, of: { required } }])
  const surroundings = new Surroundings(network, new NearSearch(network))
  return new Stage(work!, { surroundings, cost: network.cost, effort: { iterations: 100, seed: 1 } }, ports)
}

const anyComb = fc.record({
  at: fc.tuple(fc.nat(SIDE - LONGEST - 1), fc.nat(SIDE - 2)).map(([x, y]) => y * SIDE + x),
  row: fc.integer({ min: 4, max: LONGEST }),
})

it('a stage that looks only at what is near it costs what the whole graph says, and at first never says more', () => {
  const looked: number[] = []
  let grown = 0
  fc.assert(
    fc.property(
      fc.array(fc.nat(40), { minLength: 20, maxLength: 60 }),
      anyComb,
      fc.tuple(fc.nat(3), fc.nat(LONGEST)),
      (lengths, comb, [from, to]) => {
        const [start, end] = [comb.at + from, comb.at + Math.min(to, comb.row)]
        const graph = gridWith(lengths, comb)
        const stage = stageOf(graph, [start, end])
        const guess = stage.cost(start, end)
        if (stage.makeSure(start, end)) grown++
        stage.settle(start, end)
        const whole = solvePostman(graph, { start, end, iterations: 100 })
        expect(stage.cost(start, end) / 1000).toBeCloseTo(whole.cost, 6)
        expect(guess / 1000).toBeLessThanOrEqual(whole.cost + 1e-6)
        looked.push(stage.plan(start, end).local.network.vertexCount)
      },
    ),
    { seed: 4, numRuns: 60 },
  )
  expect(Math.min(...looked)).toBeLessThan((SIDE * SIDE) / 2)
  expect(grown).toBeGreaterThan(0)
})
