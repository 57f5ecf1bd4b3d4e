import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { contract } from '../../src/route/contract.ts'
import { buildNetwork, type Network } from '../../src/route/network.ts'
import { Metric } from '../../src/route/shortest-paths.ts'
import { sparseMatching } from '../../src/route/sparse-matching.ts'
import { type FreeEnds, minimumTJoin } from '../../src/route/t-join.ts'

/** A square grid with the given costs, dealt round. */
function grid(side: number, costs: readonly number[]): Network {
  const u: number[] = []
  const v: number[] = []
  for (let r = 0; r < side; r++)
    for (let c = 0; c < side; c++) {
      const x = r * side + c
      if (c + 1 < side) u.push(x) && v.push(x + 1)
      if (r + 1 < side) u.push(x) && v.push(x + side)
    }
  const cost = Float64Array.from(u, (_, e) => costs[e % costs.length]! + ((e * 7919) % 13))
  return buildNetwork(side * side, {
    u: Int32Array.from(u),
    v: Int32Array.from(v),
    cost,
    required: new Uint8Array(u.length),
  })
}

const costs = fc.array(fc.nat(1000), { minLength: 30, maxLength: 60 })
const terminalsOf = (side: number) =>
  fc.uniqueArray(fc.nat(side * side - 1), { minLength: 40, maxLength: 60 })
const evenOnes = (list: readonly number[]) => list.slice(0, list.length - (list.length % 2))

describe('least T-joins', () => {
  it('cost the same by near pairs with pricing as by all pairs', () => {
    fc.assert(
      fc.property(costs, terminalsOf(11), fc.constantFrom<FreeEnds>(0, 2), (list, some, free) => {
        const metric = new Metric(grid(11, list))
        const terminals = evenOnes(some)
        expect(sparseMatching(metric.near, terminals, free)!.cost).toBe(
          minimumTJoin(metric, terminals, free)!.cost,
        )
      }),
      { seed: 1, numRuns: 40 },
    )
  })

  it('have paths that change the parity of exactly the terminals, in large networks too', () => {
    const metric = new Metric(grid(60, [3, 8, 1, 40, 7]))
    expect(metric.isLarge).toBe(true)
    const terminals = Array.from({ length: 80 }, (_, i) => (i * 1013) % 3600)
    const join = minimumTJoin(metric, terminals, 0)!
    const degree = new Int32Array(3600)
    let cost = 0
    for (const [a, b] of join.pairs)
      metric.eachEdge(a, b, (e) => {
        degree[metric.network.u[e]!]!++
        degree[metric.network.v[e]!]!++
        cost += metric.network.cost[e]!
      })
    expect([...degree.keys()].filter((x) => degree[x]! % 2 === 1)).toEqual(
      [...terminals].sort((a, b) => a - b),
    )
    expect(cost).toBe(join.cost)
  })

  it('do not exist for an odd number of terminals with both ends fixed', () => {
    expect(minimumTJoin(new Metric(grid(3, [1])), [0, 1, 2], 0)).toBeUndefined()
    expect(minimumTJoin(new Metric(grid(3, [1])), [0, 1, 2], 1)!.ends).toHaveLength(1)
  })
})

describe('the T-join of few terminals', () => {
  // Four vertices in a row, 1, 10 and 2 apart, and two by themselves.
  const row = buildNetwork(6, {
    u: Int32Array.of(0, 1, 2, 4),
    v: Int32Array.of(1, 2, 3, 5),
    cost: Float64Array.of(1, 10, 2, 5),
    required: new Uint8Array(4),
  })
  const metric = new Metric(row)

  it('is nothing where there is none, whatever ends may be chosen', () => {
    for (const free of [0, 2] as const)
      expect(minimumTJoin(metric, [], free)).toEqual({ cost: 0, pairs: [], ends: [] })
    expect(minimumTJoin(metric, [], 1)).toBeUndefined()
  })

  it('is the way between two of them, unless both may be ends', () => {
    expect(minimumTJoin(metric, [0, 3], 0)).toEqual({ cost: 13, pairs: [[0, 3]], ends: [] })
    expect(minimumTJoin(metric, [0, 3], 2)).toEqual({ cost: 0, pairs: [], ends: [0, 3] })
    expect(minimumTJoin(metric, [0, 3], 1)).toBeUndefined()
  })

  it('is one end at a single one', () => {
    expect(minimumTJoin(metric, [3], 1)).toEqual({ cost: 0, pairs: [], ends: [3] })
    expect(minimumTJoin(metric, [3], 0)).toBeUndefined()
    expect(minimumTJoin(metric, [3], 2)).toBeUndefined()
  })

  it('leaves out the dearest way where two ends may be chosen', () => {
    expect(minimumTJoin(metric, [0, 1, 2, 3], 0)).toMatchObject({ cost: 3 })
    const { cost, pairs, ends } = minimumTJoin(metric, [0, 1, 2, 3], 2)!
    expect(cost).toBe(1)
    expect(pairs).toEqual([[0, 1]])
    expect(ends).toEqual([2, 3])
    expect(minimumTJoin(metric, [0, 2, 3], 1)).toEqual({ cost: 2, pairs: [[2, 3]], ends: [0] })
  })

  it('is none where two of them hang together by nothing, unless one of each part is an end', () => {
    expect(minimumTJoin(metric, [0, 5], 0)).toBeUndefined()
    expect(minimumTJoin(metric, [0, 1, 2, 5], 0)).toBeUndefined()
    expect(minimumTJoin(metric, [0, 2, 3, 5], 2)).toMatchObject({ cost: 2, pairs: [[2, 3]] })
  })
})

describe('merging chains', () => {
  it('changes no distance between vertices that are kept', () => {
    const kinds = fc.array(fc.constantFrom(0, 1, 2, 2, 2), { minLength: 60, maxLength: 60 })
    fc.assert(
      fc.property(costs, kinds, (list, kind) => {
        const network = grid(6, list)
        const keep = [0, 7, 35]
        const local = contract(network, { kind: Uint8Array.from(kind), keep })
        const whole = new Metric(
          network,
          Uint8Array.from(kind, (k) => (k === 0 ? 1 : 0)),
        )
        const part = new Metric(local.network)
        for (const a of keep)
          for (const b of keep)
            expect(part.distance(local.local[a]!, local.local[b]!)).toBe(whole.distance(a, b))
        const pieces = local.chains.flatMap((chain, e) => (local.network.required[e] ? chain : []))
        const wanted = kind.flatMap((k, e) => (k === 1 ? [e] : []))
        expect(pieces.sort((a, b) => a - b)).toEqual(wanted)
      }),
      { seed: 2, numRuns: 100 },
    )
  })
})
