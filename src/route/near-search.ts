import { Heap } from './heap.ts'
import type { Network } from './network.ts'

/** Told of a vertex and how far it is; true ends the search. */
type Visit = (vertex: number, distance: number) => boolean
type Allows = (edge: number) => boolean

/**
 * Dijkstra's search that stops when it has seen enough. Its arrays are kept between runs, so a run costs only what it
 * looks at.
 */
export class NearSearch {
  private readonly distance: Float64Array
  private readonly via: Int32Array
  private readonly runOf: Int32Array
  private readonly heap: Heap
  private stamp = 0
  private source = -1

  constructor(
    private readonly network: Network,
    private readonly banned?: Uint8Array,
  ) {
    this.distance = new Float64Array(network.vertexCount)
    this.via = new Int32Array(network.vertexCount)
    this.runOf = new Int32Array(network.vertexCount)
    this.heap = new Heap(2 * network.edgeCount + network.vertexCount + 1)
  }

  get vertexCount(): number {
    return this.network.vertexCount
  }

  /** Visits vertices by rising distance until `visit` returns true. */
  run(source: number, visit: Visit): void {
    this.runFrom([source], { visit, allows: (e) => !this.banned?.[e] })
  }

  /** Visits vertices by rising distance from the nearest of several, over the edges allowed, until `visit` returns true. */
  runFrom(sources: readonly number[], { visit, allows }: { visit: Visit; allows: Allows }): void {
    const { heap, distance } = this
    this.stamp++
    this.source = sources[0] ?? -1
    heap.clear()
    for (const x of sources) if (this.runOf[x] !== this.stamp) this.reach(x, 0, -1)
    while (heap.size > 0) {
      const key = heap.topKey
      const x = heap.pop()
      if (key > distance[x]!) continue
      if (visit(x, key)) return
      this.expand(x, key, allows)
    }
  }

  private reach(x: number, d: number, via: number): void {
    this.runOf[x] = this.stamp
    this.distance[x] = d
    this.via[x] = via
    this.heap.push(d, x)
  }

  private expand(x: number, key: number, allows: Allows): void {
    const { first, halfEdge, halfVertex, cost } = this.network
    for (let h = first[x]!, end = first[x + 1]!; h < end; h++) {
      const e = halfEdge[h]!
      if (!allows(e)) continue
      const y = halfVertex[h]!
      const d = key + cost[e]!
      if (this.runOf[y] !== this.stamp || d < this.distance[y]!) this.reach(y, d, e)
    }
  }

  /** Calls `visit` with the edges of the path that the last run found to `target`. */
  eachEdgeTo(target: number, visit: (edge: number) => void): void {
    const { u, v } = this.network
    for (let at = target; at !== this.source; ) {
      const e = this.via[at]!
      visit(e)
      at = u[e] === at ? v[e]! : u[e]!
    }
  }
}
