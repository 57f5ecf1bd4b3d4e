import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { NearSearch } from '../../src/route/near-search.ts'
import type { Network } from '../../src/route/network.ts'
import { allDistances, smallNetwork } from './small-networks.ts'

const withBans = smallNetwork.chain((network) =>
  fc.tuple(
    fc.constant(network),
    fc.uint8Array({ min: 0, max: 1, minLength: network.edgeCount, maxLength: network.edgeCount }),
  ),
)
const vertices = ({ vertexCount }: Network) => [...Array(vertexCount).keys()]

/** The end of the way over some edges from a vertex, and what it costs. */
function follow(
  { u, v, cost }: Network,
  from: number,
  edges: readonly number[],
): [end: number, cost: number] {
  let [at, sum] = [from, 0]
  for (const e of edges) {
    expect([u[e], v[e]]).toContain(at)
    at = u[e] === at ? v[e]! : u[e]!
    sum += cost[e]!
  }
  return [at, sum]
}

describe('a search that can stop', () => {
  it('visits by rising distance, each vertex once, all that can be reached', () => {
    fc.assert(
      fc.property(withBans, ([network, banned]) => {
        const all = allDistances(network, banned)
        const search = new NearSearch(network, banned)
        for (const x of vertices(network)) {
          const seen: [number, number][] = []
          search.run(x, (y, d) => {
            seen.push([y, d])
            return false
          })
          expect(seen.map(([, d]) => d)).toEqual(seen.map(([, d]) => d).sort((a, b) => a - b))
          const reached = vertices(network).flatMap((y) =>
            Number.isFinite(all[x]![y]!) ? [[y, all[x]![y]!]] : [],
          )
          expect([...seen].sort((a, b) => a[0] - b[0])).toEqual(reached)
        }
      }),
      { seed: 4, numRuns: 100 },
    )
  })

  it('stops where it is told to, and knows the way there', () => {
    fc.assert(
      fc.property(smallNetwork, fc.nat(8), fc.nat(8), (network, a, b) => {
        fc.pre(a < network.vertexCount && b < network.vertexCount)
        const distance = allDistances(network)[a]![b]!
        fc.pre(Number.isFinite(distance))
        const search = new NearSearch(network)
        let last = -1
        search.run(a, (x) => {
          last = x
          return x === b
        })
        expect(last).toBe(b)
        const path: number[] = []
        search.eachEdgeTo(b, (e) => path.push(e))
        expect(follow(network, b, path)).toEqual([a, distance])
      }),
      { seed: 5, numRuns: 100 },
    )
  })
})
