import { Heap } from './heap.ts'
import { NearSearch } from './near-search.ts'
import type { Network } from './network.ts'

/** Distances from one source: `distance[x]` (Infinity if unreachable) and the edge by which x is reached (-1 at the source). */
export interface PathRow {
  readonly source: number
  readonly distance: Float64Array
  readonly via: Int32Array
}

const heapFor = ({ edgeCount }: Network): Heap => new Heap(2 * edgeCount + 1)

/**
 * Cheapest paths from `source` over all edges that are not banned.
 *
 * @param banned  edges with a non-zero entry are left out
 * @param heap  an empty one to work with
 * @source Dijkstra 1959, binary heap
 */
export function shortestPaths(
  network: Network,
  source: number,
  { banned, heap = heapFor(network) }: { banned?: Uint8Array | undefined; heap?: Heap } = {},
): PathRow {
  const { first, halfEdge, halfVertex, cost } = network
  const distance = new Float64Array(network.vertexCount).fill(Number.POSITIVE_INFINITY)
  const via = new Int32Array(network.vertexCount).fill(-1)
  distance[source] = 0
  heap.push(0, source)
  while (heap.size > 0) {
    const key = heap.topKey
    const x = heap.pop()
    if (key > distance[x]!) continue
    for (let h = first[x]!, end = first[x + 1]!; h < end; h++) {
      const e = halfEdge[h]!
      if (banned?.[e]) continue
      const y = halfVertex[h]!
      const d = key + cost[e]!
      if (d >= distance[y]!) continue
      distance[y] = d
      via[y] = e
      heap.push(d, y)
    }
  }
  return { source, distance, via }
}

/** From so many vertices on, single paths are searched on demand instead of keeping whole rows. */
const LARGE = 3000

/** The shortest-path metric of a network; rows are made when first asked for. */
export class Metric {
  private readonly rows: (PathRow | undefined)[]
  private nearby: NearSearch | undefined
  private heap: Heap | undefined

  constructor(
    readonly network: Network,
    private readonly banned?: Uint8Array,
  ) {
    this.rows = new Array(network.vertexCount)
  }

  /** Whether rows of distances are too long to keep many of them. */
  get isLarge(): boolean {
    return this.network.vertexCount > LARGE
  }

  /** A search that can stop early. */
  get near(): NearSearch {
    this.nearby ??= new NearSearch(this.network, this.banned)
    return this.nearby
  }

  /** The distances from `source` to everywhere. */
  row(source: number): PathRow {
    let row = this.rows[source]
    if (!row) {
      this.heap ??= heapFor(this.network)
      row = shortestPaths(this.network, source, { banned: this.banned, heap: this.heap })
      this.rows[source] = row
    }
    return row
  }

  distance(a: number, b: number): number {
    const known = this.rows[b]
    return known ? known.distance[a]! : this.row(a).distance[b]!
  }

  /** Calls `visit` with every edge of a cheapest path between `a` and `b`. */
  eachEdge(a: number, b: number, visit: (edge: number) => void): void {
    if (this.isLarge) {
      this.near.run(a, (x) => x === b)
      this.near.eachEdgeTo(b, visit)
      return
    }
    const { u, v } = this.network
    const known = this.rows[b]
    const row = known ?? this.row(a)
    let at = known ? a : b
    while (at !== row.source) {
      const e = row.via[at]!
      visit(e)
      at = u[e] === at ? v[e]! : u[e]!
    }
  }
}
