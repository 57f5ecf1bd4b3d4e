import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lowerBound, requiredPieces } from '../../src/route/lower-bound.ts'
import { bruteForce, smallGraph, WALK_ENDS } from './small-graphs.ts'
import { networkOf } from './small-networks.ts'

const shape = { vertices: 5, required: 4, optional: 4 }

describe('the separate parts of a network', () => {
  it('are those with required edges, in the order of their first, with all their edges and vertices', () => {
    const network = networkOf(8, [
      [5, 6, 1, true],
      [0, 1, 1, false],
      [2, 3, 1, true],
      [6, 7, 1, false],
      [3, 2, 1, true],
      [4, 4, 1, true],
    ])
    expect(requiredPieces(network)).toEqual([
      { required: [0], edges: [0, 3], vertices: new Set([5, 6, 7]) },
      { required: [2, 4], edges: [2, 4], vertices: new Set([2, 3]) },
      { required: [5], edges: [5], vertices: new Set([4]) },
    ])
  })

  it('are told in order of their first required edge, wherever their vertices lie', () => {
    const network = networkOf(4, [
      [0, 1, 1, false],
      [2, 3, 1, true],
      [0, 1, 1, true],
    ])
    expect(requiredPieces(network).map(({ required }) => required)).toEqual([[1], [2]])
  })
})

describe('the bound', () => {
  it.each(Object.entries(WALK_ENDS))('is beaten by no walk that is %s', (_, endsOf) => {
    fc.assert(
      fc.property(smallGraph(shape), (graph) => {
        const { cost, starts } = lowerBound(graph, endsOf(graph))
        expect(starts).toBe(1)
        expect(cost).toBeLessThanOrEqual(bruteForce(graph, endsOf(graph)) + 1e-9)
      }),
      { seed: 1, numRuns: 12 },
    )
  })

  // Chinese postman: where every edge is required, parity decides (Edmonds and Johnson 1973).
  it('is what the cheapest walk costs where all hangs together', () => {
    fc.assert(
      fc.property(smallGraph(shape), fc.constantFrom(...Object.keys(WALK_ENDS)), (graph, kind) => {
        const whole = { ...graph, edges: graph.edges.map((edge) => ({ ...edge, required: true })) }
        const ends = WALK_ENDS[kind]!(whole)
        expect(lowerBound(whole, ends).cost).toBeCloseTo(bruteForce(whole, ends), 9)
      }),
      { seed: 2, numRuns: 30 },
    )
  })

  it('adds up over parts that hang apart, each with its own ends', () => {
    // Two stars of three rays: each has four odd vertices, and two of them may be ends.
    const ray = (v: number, centre: number, length: number) => ({
      u: centre,
      v,
      length,
      required: true,
      price: 3,
    })
    const graph = {
      vertexCount: 8,
      edges: [ray(1, 0, 1), ray(2, 0, 2), ray(3, 0, 4), ray(5, 4, 10), ray(6, 4, 20), ray(7, 4, 40)],
    }
    expect(lowerBound(graph)).toEqual({ cost: 3 + 30, starts: 2 })
    expect(lowerBound(graph, { closed: true })).toEqual({ cost: 3 * 77, starts: 2 })
    expect(lowerBound(graph, { start: 1 })).toEqual({ cost: 3 * 2 + 30, starts: 2 })
    expect(lowerBound(graph, { start: 1, end: 6 }).cost).toBe(3 * 2 + 3 * 10)
  })

  it('takes prices for edges that name none', () => {
    const graph = {
      vertexCount: 4,
      edges: [1, 2, 3].map((v) => ({ u: 0, v, length: 2, required: true })),
    }
    expect(lowerBound(graph, { prices: { travel: 1, overlap: 5 } }).cost).toBe(10)
  })

  it('is refused for a graph that is none', () => {
    expect(() => lowerBound({ vertexCount: 1, edges: [{ u: 0, v: 4, length: 1, required: true }] })).toThrow(
      /vertex 4/,
    )
  })
})
