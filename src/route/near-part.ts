import { type Contracted, contract, type Selection } from './contract.ts'
import type { NearSearch } from './near-search.ts'
import { buildNetwork, type Network } from './network.ts'
import type { Passable } from './passable.ts'

/** The pieces of a stage, what it may pass over, and the vertices at which its walk may begin or end. */
export interface PartTask {
  readonly pieces: readonly number[]
  /** Of the pieces. */
  readonly vertices: readonly number[]
  readonly passable: Passable
  readonly ports: readonly number[]
  /** Per edge of the whole, the cost of one extra pass; at least the network's own. */
  readonly cost: Float64Array
}

/** How far to look: at least so many vertices, and at least so far. */
export interface Extent {
  readonly vertices: number
  readonly radius: number
}

/** The merged network round a stage. */
export interface NearPart extends Omit<Contracted, 'local'> {
  /** The vertex of each original one that was kept. */
  readonly local: ReadonlyMap<number, number>
  /** Nothing that can be passed within this distance of a piece or port is left out; Infinity: nothing at all. */
  readonly radius: number
}

const SERVE = 1
const PASS = 2

/** Looks round the stages of one network; its memory is as large as the network and used again for every stage. */
export class Surroundings {
  /** While a part is cut out: where each of its vertices stands in it, elsewhere -1. */
  private readonly place: Int32Array
  private readonly isOwn: Uint8Array

  constructor(
    readonly network: Network,
    readonly near: NearSearch,
  ) {
    this.place = new Int32Array(network.vertexCount).fill(-1)
    this.isOwn = new Uint8Array(network.edgeCount)
  }

  /** The part of the network that lies within reach of a stage, merged. */
  part(task: PartTask, extent: Extent): NearPart {
    const { place, isOwn } = this
    const { vertices, radius } = this.within(task, extent)
    for (let i = 0; i < vertices.length; i++) place[vertices[i]!] = i
    for (const e of task.pieces) isOwn[e] = 1
    const edges = this.edgesAmong(task, vertices)
    const keep = task.ports.map((x) => place[x]!)
    const merged = contract(...this.cut({ vertices, edges, keep, cost: task.cost }))
    for (const x of vertices) place[x] = -1
    for (const e of task.pieces) isOwn[e] = 0
    return inWhole(merged, { vertices, edges, radius })
  }

  /** The vertices near a stage in ascending order, and how far all are among them. */
  private within({ vertices, ports, passable }: PartTask, extent: Extent) {
    const found: number[] = []
    let radius = Number.POSITIVE_INFINITY
    let last = 0
    this.near.runFrom([...vertices, ...ports], {
      allows: (e) => passable.allows(e),
      visit: (x, distance) => {
        if (found.length >= extent.vertices && distance > last && last >= extent.radius) {
          radius = last
          return true
        }
        found.push(x)
        last = distance
        return false
      },
    })
    return { vertices: Int32Array.from(found).sort(), radius }
  }

  /** The pieces and what can be passed between the vertices, in ascending order. */
  private edgesAmong({ pieces, passable }: PartTask, vertices: Int32Array): Int32Array {
    const { place } = this
    const { first, halfEdge, halfVertex } = this.network
    const edges = [...pieces]
    for (const x of vertices)
      for (let h = first[x]!; h < first[x + 1]!; h++) {
        const y = halfVertex[h]!
        if (y > x && place[y] !== -1 && passable.allows(halfEdge[h]!)) edges.push(halfEdge[h]!)
      }
    return Int32Array.from(edges).sort()
  }

  /** The part as a network of its own, and what of it must be stitched. */
  private cut(part: {
    vertices: Int32Array
    edges: Int32Array
    keep: number[]
    cost: Float64Array
  }): [Network, Selection] {
    const { network, place, isOwn } = this
    const count = part.edges.length
    const [u, v] = [new Int32Array(count), new Int32Array(count)]
    const cost = new Float64Array(count)
    const kind = new Uint8Array(count)
    for (let i = 0; i < count; i++) {
      const e = part.edges[i]!
      u[i] = place[network.u[e]!]!
      v[i] = place[network.v[e]!]!
      cost[i] = part.cost[e]!
      kind[i] = isOwn[e] ? SERVE : PASS
    }
    return [buildNetwork(part.vertices.length, { u, v, cost, required: kind }), { kind, keep: part.keep }]
  }
}

/** A merged part in the numbers of the whole. */
function inWhole(
  { network, chains, original }: Contracted,
  from: { vertices: Int32Array; edges: Int32Array; radius: number },
): NearPart {
  const local = new Map<number, number>()
  for (let i = 0; i < original.length; i++) {
    original[i] = from.vertices[original[i]!]!
    local.set(original[i]!, i)
  }
  for (const chain of chains) for (let i = 0; i < chain.length; i++) chain[i] = from.edges[chain[i]!]!
  return { network, chains, original, local, radius: from.radius }
}
