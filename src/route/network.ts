/**
 * A graph in typed arrays. Costs are integers: the weighted price of one extra pass in thousandths, so that equality of
 * sums is exact.
 */
export interface Network {
  readonly vertexCount: number
  readonly edgeCount: number
  readonly u: Int32Array
  readonly v: Int32Array
  readonly cost: Float64Array
  readonly required: Uint8Array
  /** Half-edges of vertex x: `first[x]` to `first[x + 1] - 1`. A loop has two. */
  readonly first: Int32Array
  readonly halfEdge: Int32Array
  readonly halfVertex: Int32Array
}

/** What a network is built from: parallel arrays, one entry an edge. */
export interface EdgeArrays {
  readonly u: Int32Array
  readonly v: Int32Array
  readonly cost: Float64Array
  readonly required: Uint8Array
}

/** Thousandths of a weighted millimetre, as an integer. */
export const integerCost = (weighted: number): number => Math.round(weighted * 1000)

/** Builds the adjacency of `arrays` in two passes. */
export function buildNetwork(vertexCount: number, arrays: EdgeArrays): Network {
  const { u, v } = arrays
  const edgeCount = u.length
  const first = new Int32Array(vertexCount + 1)
  for (let e = 0; e < edgeCount; e++) {
    first[u[e]! + 1]!++
    first[v[e]! + 1]!++
  }
  for (let x = 0; x < vertexCount; x++) first[x + 1]! += first[x]!
  const next = first.slice()
  const halfEdge = new Int32Array(2 * edgeCount)
  const halfVertex = new Int32Array(2 * edgeCount)
  for (let e = 0; e < edgeCount; e++) {
    let h = next[u[e]!]!++
    halfEdge[h] = e
    halfVertex[h] = v[e]!
    h = next[v[e]!]!++
    halfEdge[h] = e
    halfVertex[h] = u[e]!
  }
  return { vertexCount, edgeCount, ...arrays, first, halfEdge, halfVertex }
}
