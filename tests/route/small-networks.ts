import fc from 'fast-check'
import { buildNetwork, type Network } from '../../src/route/network.ts'

/** One edge of a small network: its ends, what a pass costs, and whether it must be stitched. */
export type SmallEdge = readonly [u: number, v: number, cost: number, required?: boolean]

/** A network of edges given by hand. */
export const networkOf = (vertexCount: number, edges: readonly SmallEdge[]): Network =>
  buildNetwork(vertexCount, {
    u: Int32Array.from(edges, ([u]) => u),
    v: Int32Array.from(edges, ([, v]) => v),
    cost: Float64Array.from(edges, ([, , cost]) => cost),
    required: Uint8Array.from(edges, ([, , , required]) => (required ? 1 : 0)),
  })

const edge = (vertices: number): fc.Arbitrary<SmallEdge> =>
  fc.tuple(fc.nat(vertices - 1), fc.nat(vertices - 1), fc.nat(20), fc.boolean())

/** Networks with loops, parallel edges, edges of no cost and parts that hang apart. */
export const smallNetwork: fc.Arbitrary<Network> = fc
  .integer({ min: 1, max: 9 })
  .chain((vertices) => fc.array(edge(vertices), { maxLength: 16 }).map((edges) => networkOf(vertices, edges)))

/** All distances by Floyd and Warshall's triple loop. @source Floyd, CACM 5 (1962), algorithm 97 */
export function allDistances({ vertexCount, u, v, cost }: Network, banned?: Uint8Array): number[][] {
  const d = Array.from({ length: vertexCount }, (_, x) =>
    Array.from({ length: vertexCount }, (_, y) => (x === y ? 0 : Number.POSITIVE_INFINITY)),
  )
  cost.forEach((c, e) => {
    const [a, b] = [u[e]!, v[e]!]
    if (banned?.[e] || c >= d[a]![b]!) return
    d[a]![b] = c
    d[b]![a] = c
  })
  for (let k = 0; k < vertexCount; k++)
    for (let i = 0; i < vertexCount; i++)
      for (let j = 0; j < vertexCount; j++) d[i]![j] = Math.min(d[i]![j]!, d[i]![k]! + d[k]![j]!)
  return d
}
