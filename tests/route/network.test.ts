import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { integerCost } from '../../src/route/network.ts'
import { networkOf, smallNetwork } from './small-networks.ts'

describe('a network', () => {
  it('lists at each vertex its edges in order, and where each leads; a loop twice', () => {
    fc.assert(
      fc.property(smallNetwork, ({ vertexCount, edgeCount, u, v, first, halfEdge, halfVertex }) => {
        expect(first).toHaveLength(vertexCount + 1)
        expect([first[0], first[vertexCount]]).toEqual([0, 2 * edgeCount])
        for (let x = 0; x < vertexCount; x++) {
          const wanted = [...u.keys()].flatMap((e) => [
            ...(u[e] === x ? [[e, v[e]]] : []),
            ...(v[e] === x ? [[e, u[e]]] : []),
          ])
          const found = Array.from({ length: first[x + 1]! - first[x]! }, (_, i) => [
            halfEdge[first[x]! + i],
            halfVertex[first[x]! + i],
          ])
          expect(found).toEqual(wanted)
        }
      }),
      { seed: 1, numRuns: 100 },
    )
  })

  it('keeps what it was built from', () => {
    const { u, v, cost, required, edgeCount, vertexCount } = networkOf(3, [
      [0, 2, 7, true],
      [1, 1, 0],
    ])
    expect([[...u], [...v], [...cost], [...required]]).toEqual([
      [0, 1],
      [2, 1],
      [7, 0],
      [1, 0],
    ])
    expect([vertexCount, edgeCount]).toEqual([3, 2])
  })

  it('counts costs in whole thousandths', () => {
    expect([0, 1, 0.0004, 0.0006, 2.3456].map(integerCost)).toEqual([0, 1000, 0, 1, 2346])
  })
})
