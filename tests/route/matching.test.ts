import edmonds from 'edmonds-blossom-fixed'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type MatchingProblem, minimumMatching } from '../../src/route/index.ts'

type Weighted = readonly [number, number, number]

const problemOf = (vertexCount: number, edges: readonly Weighted[]): MatchingProblem => ({
  vertexCount,
  u: Int32Array.from(edges, (e) => e[0]),
  v: Int32Array.from(edges, (e) => e[1]),
  cost: Float64Array.from(edges, (e) => e[2]),
})

/** All pairings, tried. */
function bruteMatching(vertexCount: number, edges: readonly Weighted[]): number {
  const cost = new Map<string, number>()
  for (const [u, v, c] of edges) {
    const key = `${Math.min(u, v)} ${Math.max(u, v)}`
    cost.set(key, Math.min(c, cost.get(key) ?? Number.POSITIVE_INFINITY))
  }
  const rest = (free: readonly number[]): number => {
    const [a, ...others] = free
    if (a === undefined) return 0
    return Math.min(
      ...others.map(
        (b) => (cost.get(`${a} ${b}`) ?? Number.POSITIVE_INFINITY) + rest(others.filter((x) => x !== b)),
      ),
      Number.POSITIVE_INFINITY,
    )
  }
  return rest(Array.from({ length: vertexCount }, (_, i) => i))
}

const pairsOf = (n: number): [number, number][] =>
  Array.from({ length: n }, (_, i) => i).flatMap((i) =>
    Array.from({ length: n - i - 1 }, (_, j) => [i, i + 1 + j] as [number, number]),
  )

const someEdges = (n: number, max: number): fc.Arbitrary<Weighted[]> =>
  fc
    .tuple(...pairsOf(n).map(([i, j]) => fc.tuple(fc.constant(i), fc.constant(j), fc.nat(max), fc.boolean())))
    .map((list) => list.filter((e, i) => e[3] || i % 3 === 0).map(([i, j, c]) => [i, j, c] as const))

function assertProof(problem: MatchingProblem): void {
  const matching = minimumMatching(problem)!
  problem.u.forEach((a, k) => {
    const b = problem.v[k]!
    const reduced = matching.reducedCost(a, b, problem.cost[k]!)
    expect(reduced).toBeGreaterThanOrEqual(0)
    if (matching.partner[a] === b && problem.cost[k] === costBetween(problem, a, b)) expect(reduced).toBe(0)
  })
}

const costBetween = (problem: MatchingProblem, a: number, b: number): number =>
  Math.min(...[...problem.cost].filter((_, k) => problem.u[k] === a && problem.v[k] === b))

describe('minimum-weight perfect matching', () => {
  it('costs what trying all pairings finds, up to ten vertices, with ties and missing edges', () => {
    const sizes = fc.constantFrom(2, 4, 6, 8).chain((n) =>
      fc.tuple(
        fc.constant(n),
        fc.constantFrom(2, 9, 5000).chain((max) => someEdges(n, max)),
      ),
    )
    fc.assert(
      fc.property(sizes, ([n, edges]) => {
        const least = bruteMatching(n, edges)
        expect(minimumMatching(problemOf(n, edges))?.cost ?? Number.POSITIVE_INFINITY).toBe(least)
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  // Source: edmonds-blossom-fixed 1.0.1, a port of van Rantwijk's mwmatching; maximum weight at largest cardinality.
  it('costs what an independent library finds on 20 to 60 vertices', () => {
    const problems = fc.constantFrom(20, 40, 60).chain((n) => fc.tuple(fc.constant(n), someEdges(n, 100_000)))
    fc.assert(
      fc.property(problems, ([n, edges]) => {
        const partner = edmonds(
          edges.map(([i, j, c]) => [i, j, 100_001 - c]),
          true,
        )
        const found = minimumMatching(problemOf(n, edges))
        if (partner.length < n || partner.includes(-1)) {
          expect(found).toBeUndefined()
          return
        }
        const theirs = edges.filter(([i, j]) => partner[i] === j).reduce((sum, e) => sum + e[2], 0)
        expect(found!.cost).toBe(theirs)
      }),
      { seed: 2, numRuns: 25 },
    )
  })

  it('carries its proof: no edge has a negative reduced cost, matched edges have none', () => {
    const complete = fc.array(fc.nat(50), { minLength: 66, maxLength: 66 })
    fc.assert(
      fc.property(complete, (costs) =>
        assertProof(
          problemOf(
            12,
            pairsOf(12).map(([i, j], k) => [i, j, costs[k]!]),
          ),
        ),
      ),
      { seed: 3, numRuns: 100 },
    )
  })

  it('pairs every vertex with its partner both ways', () => {
    const edges = pairsOf(30).map(([i, j]) => [i, j, (i * 7 + j * 13) % 101] as const)
    const { partner } = minimumMatching(problemOf(30, edges))!
    for (const [a, b] of partner.entries()) expect(partner[b]).toBe(a)
  })

  it('says so when there is no perfect matching', () => {
    expect(
      minimumMatching(
        problemOf(3, [
          [0, 1, 1],
          [1, 2, 1],
        ]),
      ),
    ).toBeUndefined()
    expect(
      minimumMatching(
        problemOf(4, [
          [0, 1, 1],
          [0, 2, 1],
          [0, 3, 1],
        ]),
      ),
    ).toBeUndefined()
  })

  it('takes edges of cost 0 for edges', () => {
    expect(
      minimumMatching(
        problemOf(4, [
          [0, 1, 0],
          [2, 3, 0],
          [0, 2, 5],
          [1, 3, 5],
        ]),
      )!.cost,
    ).toBe(0)
  })
})
