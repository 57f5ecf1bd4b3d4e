import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
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
