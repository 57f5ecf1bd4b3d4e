import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Network } from '../../src/route/network.ts'
import { Metric, shortestPaths } from '../../src/route/shortest-paths.ts'
import { allDistances, networkOf, smallNetwork } from './small-networks.ts'

const withBans = smallNetwork.chain((network) =>
  fc.tuple(
    fc.constant(network),
    fc.uint8Array({ min: 0, max: 1, minLength: network.edgeCount, maxLength: network.edgeCount }),
  ),
)
const vertices = ({ vertexCount }: Network) => [...Array(vertexCount).keys()]

describe('shortest paths', () => {
  it('are as long as the triple loop finds, past edges that are banned', () => {
    fc.assert(
      fc.property(withBans, ([network, banned]) => {
        const all = allDistances(network, banned)
        for (const x of vertices(network)) {
          const { distance, via, source } = shortestPaths(network, x, { banned })
          expect(source).toBe(x)
          expect([...distance]).toEqual(all[x])
          via.forEach((e, y) => {
            expect(e === -1).toBe(y === x || !Number.isFinite(all[x]![y]!))
            if (e !== -1) expect(banned[e]).toBe(0)
          })
        }
      }),
      { seed: 1, numRuns: 60 },
    )
  })
})

describe('a metric', () => {
  it('tells each distance, asked either way round, and a path of that length', () => {
    fc.assert(
      fc.property(withBans, ([network, banned]) => {
        const all = allDistances(network, banned)
        const metric = new Metric(network, banned)
        expect(metric.isLarge).toBe(false)
        for (const a of vertices(network))
          for (const b of vertices(network)) {
            expect(metric.distance(a, b)).toBe(all[a]![b])
            expect(new Metric(network, banned).distance(b, a)).toBe(all[a]![b])
            if (!Number.isFinite(all[a]![b]!)) continue
            // The edges of a path, in whatever order: they cost the distance, and only its ends have an odd number.
            const odd = new Set<number>()
            let cost = 0
            metric.eachEdge(a, b, (e) => {
              cost += network.cost[e]!
              for (const x of [network.u[e]!, network.v[e]!]) if (!odd.delete(x)) odd.add(x)
            })
            expect(cost).toBe(all[a]![b])
            expect(odd).toEqual(a === b ? new Set() : new Set([a, b]))
          }
      }),
      { seed: 3, numRuns: 30 },
    )
  })

  it('keeps the rows that it made', () => {
    const metric = new Metric(networkOf(3, [[0, 1, 5]]))
    expect(metric.row(0)).toBe(metric.row(0))
    expect(metric.near).toBe(metric.near)
    expect(metric.near.vertexCount).toBe(3)
  })

  it('of a large network searches single paths instead', () => {
    const count = 3001
    const row = networkOf(
      count,
      Array.from({ length: count - 1 }, (_, x) => [x, x + 1, 1] as const),
    )
    const metric = new Metric(row)
    expect(metric.isLarge).toBe(true)
    expect(new Metric(networkOf(3000, [])).isLarge).toBe(false)
    const path: number[] = []
    metric.eachEdge(10, 14, (e) => path.push(e))
    expect(path.sort((a, b) => a - b)).toEqual([10, 11, 12, 13])
  })
})
