import { buildNetwork, type Network } from './network.ts'

/** A network with its chains merged: what is local to a task, and how it maps back. */
export interface Contracted {
  readonly network: Network
  /** For each merged edge: the original edges from its u to its v. */
  readonly chains: readonly number[][]
  /** The original vertex of each vertex. */
  readonly original: Int32Array
  /** The vertex of each original one, -1 if it was merged away or left out. */
  readonly local: Int32Array
}

/** Which edges of the whole take part, and which vertices must survive. */
export interface Selection {
  /** 1 = must be stitched, 2 = may be passed, 0 = left out. */
  readonly kind: Uint8Array
  readonly keep: Iterable<number>
  /** The cost of one extra pass over each original edge; the network's own if left out. */
  readonly cost?: Float64Array
}

const SERVE = 1
const PASS = 2

/** Removes dead ends that may be passed but lead nowhere. */
function pruneDeadEnds(network: Network, kind: Uint8Array, degree: Int32Array, keep: Uint8Array): void {
  const { u, v, first, halfEdge, halfVertex } = network
  const stack: number[] = []
  for (let x = 0; x < network.vertexCount; x++) if (degree[x] === 1 && !keep[x]) stack.push(x)
  while (stack.length > 0) {
    const x = stack.pop()!
    if (degree[x] !== 1) continue
    for (let h = first[x]!; h < first[x + 1]!; h++) {
      const e = halfEdge[h]!
      if (kind[e] !== PASS || u[e] === v[e]) continue
      const y = halfVertex[h]!
      kind[e] = 0
      degree[x]!--
      degree[y]!--
      if (degree[y] === 1 && !keep[y]) stack.push(y)
      break
    }
  }
}

/** Marks the vertices that are more than a link in a chain of one kind. */
function markJoints(network: Network, kind: Uint8Array, degree: Int32Array, keep: Uint8Array): void {
  const { first, halfEdge } = network
  for (let x = 0; x < network.vertexCount; x++) {
    if (keep[x] || degree[x] === 0) continue
    if (degree[x] !== 2) {
      keep[x] = 1
      continue
    }
    let seen = 0
    for (let h = first[x]!; h < first[x + 1]!; h++) {
      const k = kind[halfEdge[h]!]!
      if (k === 0) continue
      if (seen !== 0 && seen !== k) keep[x] = 1
      seen = k
    }
  }
}

/**
 * The part of a network that a task needs, with chains of vertices of degree two merged into single edges and dead ends
 * of passable edges removed. Distances between surviving vertices and the parities of all are unchanged.
 *
 * Loops to be stitched stay as loops; a passable loop is of no use and is dropped.
 */
export function contract(network: Network, selection: Selection): Contracted {
  const n = network.vertexCount
  const { u, v, first, halfEdge, halfVertex } = network
  const kind = selection.kind.slice()
  const price = selection.cost ?? network.cost
  const keep = new Uint8Array(n)
  for (const x of selection.keep) keep[x] = 1
  const degree = new Int32Array(n)
  for (let e = 0; e < network.edgeCount; e++) {
    if (kind[e] === PASS && u[e] === v[e]) kind[e] = 0
    if (kind[e] === 0) continue
    degree[u[e]!]!++
    degree[v[e]!]!++
  }
  pruneDeadEnds(network, kind, degree, keep)
  markJoints(network, kind, degree, keep)

  const local = new Int32Array(n).fill(-1)
  const original: number[] = []
  const chains: number[][] = []
  const ends: [number, number][] = []
  const costs: number[] = []
  const kinds: number[] = []
  const used = new Uint8Array(network.edgeCount)
  const enter = (x: number): number => {
    if (local[x] === -1) {
      local[x] = original.length
      original.push(x)
    }
    return local[x]!
  }
  const follow = (from: number, edge: number, to: number): void => {
    const chain: number[] = []
    let cost = 0
    let e = edge
    let at = to
    for (;;) {
      chain.push(e)
      used[e] = 1
      cost += price[e]!
      if (keep[at]) break
      let next = -1
      for (let h = first[at]!; h < first[at + 1]!; h++) {
        const k = halfEdge[h]!
        if (kind[k] === 0 || used[k]) continue
        next = h
        break
      }
      if (next === -1) break
      e = halfEdge[next]!
      at = halfVertex[next]!
    }
    const k = kind[edge]!
    if (k === PASS && at === from) return
    chains.push(chain)
    ends.push([enter(from), enter(at)])
    costs.push(cost)
    kinds.push(k)
  }
  const followAll = (x: number): void => {
    for (let h = first[x]!; h < first[x + 1]!; h++) {
      const e = halfEdge[h]!
      if (kind[e] !== 0 && !used[e]) follow(x, e, halfVertex[h]!)
    }
  }
  for (const x of selection.keep) enter(x)
  for (let x = 0; x < n; x++) if (keep[x]) followAll(x)
  for (let e = 0; e < network.edgeCount; e++) {
    if (kind[e] !== SERVE || used[e]) continue
    keep[u[e]!] = 1
    followAll(u[e]!)
  }
  const arrays = {
    u: Int32Array.from(ends, (p) => p[0]),
    v: Int32Array.from(ends, (p) => p[1]),
    cost: Float64Array.from(costs),
    required: Uint8Array.from(kinds, (k) => (k === SERVE ? 1 : 0)),
  }
  return {
    network: buildNetwork(original.length, arrays),
    chains,
    original: Int32Array.from(original),
    local,
  }
}
