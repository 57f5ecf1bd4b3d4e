import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { minimumMatching } from '../../src/route/matching.ts'
import { NearSearch } from '../../src/route/near-search.ts'
import type { Network } from '../../src/route/network.ts'
import { sparseMatching } from '../../src/route/sparse-matching.ts'
import { allDistances, networkOf, smallNetwork } from './small-networks.ts'

/** The least cost of pairing terminals, `free` of them for nothing, over all ways; Infinity if there is none. */
function leastPairing(d: number[][], terminals: readonly number[], free: number): number {
  const [first, ...rest] = terminals
  if (first === undefined) return free % 2 === 0 ? 0 : Number.POSITIVE_INFINITY
  const paired = rest.map(
    (other, i) =>
      d[first]![other]! +
      leastPairing(
        d,
        rest.filter((_, k) => k !== i),
        free,
      ),
  )
  return Math.min(...paired, free > 0 ? leastPairing(d, rest, free - 1) : Number.POSITIVE_INFINITY)
}

/** What a matching costs, pair by pair. */
function costOf(d: number[][], terminals: readonly number[], partner: ArrayLike<number>): number {
  return terminals.reduce((sum, x, i) => {
    const j = partner[i]!
    if (j < terminals.length) expect(partner[j]).toBe(i)
    return sum + (j < terminals.length && i < j ? d[x]![terminals[j]!]! : 0)
  }, 0)
}

const line = (count: number): Network =>
  networkOf(
    count,
    Array.from({ length: count - 1 }, (_, x) => [x, x + 1, 1] as const),
  )

describe('a matching over near pairs', () => {
  it('costs as little as the best of all pairings, with and without free ends', () => {
    fc.assert(
      fc.property(
        smallNetwork,
        fc.uniqueArray(fc.nat(8), { maxLength: 6 }),
        fc.nat(2),
        (network, some, free) => {
          const terminals = some.filter((x) => x < network.vertexCount)
          fc.pre((terminals.length + free) % 2 === 0 && terminals.length > 0)
          const d = allDistances(network)
          const least = leastPairing(d, terminals, free)
          const found = sparseMatching(new NearSearch(network), terminals, free)
          expect(found === undefined).toBe(!Number.isFinite(least))
          if (!found) return
          expect(found.cost).toBe(least)
          expect(costOf(d, terminals, found.partner)).toBe(least)
        },
      ),
      { seed: 1, numRuns: 80 },
    )
  })

  it('finds partners that are far beyond the nearest few', () => {
    // Two crowds of 13 on a line, 100 apart: an odd crowd must send one over, whatever its ten nearest are.
    const terminals = [...Array(13).keys(), ...Array.from({ length: 13 }, (_, i) => 112 + i)]
    const found = sparseMatching(new NearSearch(line(125)), terminals, 0)!
    // Six neighbours on each side at 1 each, and 12 to 112.
    expect(found.cost).toBe(6 + 100 + 6)
    expect(found.partner[12]).toBe(13)
  })

  // On a line the cheapest pairs are neighbours: any other pairing runs over some stretch once more.
  it('pairs neighbours along a line, in crowds and across the gaps between them', () => {
    const gap = fc.constantFrom(1, 1, 1, 2, 3, 5, 30, 100)
    fc.assert(
      fc.property(fc.array(gap, { minLength: 23, maxLength: 45 }), (gaps) => {
        const used = gaps.length % 2 === 1 ? gaps : gaps.slice(1)
        const road = networkOf(
          used.length + 1,
          used.map((cost, x) => [x, x + 1, cost] as const),
        )
        const found = sparseMatching(new NearSearch(road), [...Array(used.length + 1).keys()], 0)!
        expect(found.cost).toBe(used.reduce((sum, cost, i) => (i % 2 === 0 ? sum + cost : sum), 0))
      }),
      { seed: 4, numRuns: 60 },
    )
  })

  it('costs what a matching over all pairs costs, with free ends too', () => {
    const side = 6
    const costs = fc.array(fc.constantFrom(1, 2, 9, 50, 51), { minLength: 60, maxLength: 60 })
    const places = fc.uniqueArray(fc.nat(side * side - 1), { minLength: 24, maxLength: 30 })
    fc.assert(
      fc.property(costs, places, fc.constantFrom(0, 2), (list, some, free) => {
        const edges = [...Array(side * side).keys()].flatMap((x) => [
          ...((x + 1) % side === 0 ? [] : [[x, x + 1] as const]),
          ...(x + side < side * side ? [[x, x + side] as const] : []),
        ])
        const network = networkOf(
          side * side,
          edges.map(([a, b], e) => [a, b, list[e]!] as const),
        )
        const terminals = some.slice(0, some.length - (some.length % 2))
        const n = terminals.length
        const d = allDistances(network)
        const rows = [...Array(n + free).keys()].flatMap((i) =>
          [...Array(i).keys()].map((j) => [j, i, i < n ? d[terminals[j]!]![terminals[i]!]! : 0] as const),
        )
        const all = minimumMatching({
          vertexCount: n + free,
          u: Int32Array.from(rows, ([j]) => j),
          v: Int32Array.from(rows, ([, i]) => i),
          cost: Float64Array.from(rows, ([, , cost]) => cost),
        })!
        const near = sparseMatching(new NearSearch(network), terminals, free)!
        expect(near.cost).toBe(all.cost)
        expect(costOf(d, terminals, near.partner)).toBe(all.cost)
      }),
      { seed: 5, numRuns: 40 },
    )
  })

  it('is none where a part of the network holds an odd number and no end is free', () => {
    const apart = networkOf(4, [
      [0, 1, 1],
      [2, 3, 1],
    ])
    const search = new NearSearch(apart)
    expect(sparseMatching(search, [0, 2], 0)).toBeUndefined()
    expect(sparseMatching(search, [0, 2], 2)!.cost).toBe(0)
    expect(sparseMatching(search, [0, 1, 2, 3], 0)!.cost).toBe(2)
  })
})
