import type { Network } from './network.ts'
import { Metric } from './shortest-paths.ts'
import { type FreeEnds, minimumTJoin, type TJoin } from './t-join.ts'
import { UnionFind } from './union-find.ts'

/** Where a walk begins and ends: at given vertices (the same twice: closed there), and at `free` chosen ones. */
export interface WalkEnds {
  readonly fixed: readonly number[]
  readonly free: FreeEnds
}

/** Extra passes that make one walk possible. */
export interface Solution {
  /** Extra passes over each edge. */
  readonly passes: Uint8Array
  readonly cost: number
  /** The two ends of the walk, or none if it is closed and may start anywhere. */
  readonly ends: readonly number[]
}

/** A forced path between two vertices, to connect what the matching leaves apart. */
export interface Link {
  readonly a: number
  readonly b: number
}

/**
 * One rural postman task: the network, its required pieces (components) and the ends. Components are numbered from 0;
 * a fixed end off every required edge is a component of its own.
 */
export class Task {
  readonly metric: Metric
  /** The component of each vertex, -1 off the required edges. */
  readonly component: Int32Array
  readonly componentCount: number
  private readonly odd: Uint8Array
  /** Marks of vertices, for one question at a time. */
  private readonly marks: Uint8Array
  private readonly sets: UnionFind

  constructor(
    readonly network: Network,
    readonly ends: WalkEnds,
    metric?: Metric,
  ) {
    const n = network.vertexCount
    this.metric = metric ?? new Metric(network)
    this.sets = new UnionFind(n)
    this.odd = new Uint8Array(n)
    this.marks = new Uint8Array(n)
    this.component = new Int32Array(n).fill(-1)
    const touched = new Uint8Array(n)
    for (let e = 0; e < network.edgeCount; e++) {
      if (!network.required[e]) continue
      const a = network.u[e]!
      const b = network.v[e]!
      this.odd[a]! ^= 1
      this.odd[b]! ^= 1
      touched[a] = 1
      touched[b] = 1
      this.sets.union(a, b)
    }
    for (const x of ends.fixed) {
      touched[x] = 1
      this.odd[x]! ^= 1
    }
    let count = 0
    const ofRoot = new Int32Array(n).fill(-1)
    for (let x = 0; x < n; x++) {
      if (!touched[x]) continue
      const root = this.sets.find(x)
      if (ofRoot[root] === -1) ofRoot[root] = count++
      this.component[x] = ofRoot[root]!
    }
    this.componentCount = count
  }

  /** The vertices whose parity is wrong once `links` are added. */
  terminals(links: readonly Link[]): number[] {
    const { marks } = this
    marks.set(this.odd)
    for (const { a, b } of links) {
      marks[a]! ^= 1
      marks[b]! ^= 1
    }
    const list: number[] = []
    for (let x = 0; x < marks.length; x++) if (marks[x]) list.push(x)
    return list
  }

  /** The least T-join once `links` are in place: a lower bound on every solution that contains them. */
  join(links: readonly Link[]): TJoin | undefined {
    return minimumTJoin(this.metric, this.terminals(links), this.ends.free)
  }

  /** Whether the required pieces, the ends and the extra passes hang together. */
  isConnected(passes: Uint8Array): boolean {
    const { sets, network, component } = this
    if (this.componentCount <= 1) return true
    this.mergePasses(passes)
    let root = -1
    for (let x = 0; x < network.vertexCount; x++) {
      if (component[x] === -1) continue
      const r = sets.find(x)
      if (root === -1) root = r
      else if (r !== root) return false
    }
    return true
  }

  /** After this, `sets` holds the connected pieces of required edges and extra passes. */
  private mergePasses(passes: Uint8Array): void {
    const { sets, network } = this
    sets.reset()
    for (let e = 0; e < network.edgeCount; e++)
      if (network.required[e] || passes[e]! > 0) sets.union(network.u[e]!, network.v[e]!)
  }

  /** The connected piece of every vertex under `passes`, and the pieces that hold a component. */
  vertexPieces(passes: Uint8Array): { pieceOf: Int32Array; held: ReadonlySet<number> } {
    this.mergePasses(passes)
    const pieceOf = Int32Array.from(this.component, (_, x) => this.sets.find(x))
    return { pieceOf, held: new Set(pieceOf.filter((_, x) => this.component[x] !== -1)) }
  }

  /** The passes of `links` and a T-join, at most one on a required edge and two on another. */
  passesOf(links: readonly Link[], join: TJoin): Uint8Array {
    const { required } = this.network
    const passes = new Uint8Array(this.network.edgeCount)
    const count = (e: number) => {
      const more = passes[e]! + 1
      passes[e] = required[e] ? more & 1 : more > 2 ? 1 : more
    }
    for (const { a, b } of links) this.metric.eachEdge(a, b, count)
    for (const [a, b] of join.pairs) this.metric.eachEdge(a, b, count)
    return passes
  }

  /** Takes out double passes, dearest first, that connection does not need. */
  dropDoubles(passes: Uint8Array): void {
    const { cost } = this.network
    const doubles: number[] = []
    for (let e = 0; e < passes.length; e++) if (passes[e] === 2) doubles.push(e)
    if (doubles.length === 0) return
    doubles.sort((a, b) => cost[b]! - cost[a]! || a - b)
    for (const e of doubles) {
      passes[e] = 0
      if (!this.isConnected(passes)) passes[e] = 2
    }
  }

  /** Takes out extra passes that touch no required piece and no end. */
  dropLoose(passes: Uint8Array): void {
    const { sets, network, component } = this
    this.mergePasses(passes)
    const held = this.marks.fill(0)
    for (let x = 0; x < component.length; x++) if (component[x] !== -1) held[sets.find(x)] = 1
    for (let e = 0; e < passes.length; e++)
      if (passes[e]! > 0 && held[sets.find(network.u[e]!)] === 0) passes[e] = 0
  }

  costOf(passes: Uint8Array): number {
    let sum = 0
    for (let e = 0; e < passes.length; e++) if (passes[e]! > 0) sum += passes[e]! * this.network.cost[e]!
    return sum
  }

  /** The solution that contains `links`, or undefined where they do not connect everything or parity cannot be met. */
  evaluate(links: readonly Link[]): Solution | undefined {
    const join = this.join(links)
    if (!join) return undefined
    const passes = this.passesOf(links, join)
    if (!this.isConnected(passes)) return undefined
    this.dropDoubles(passes)
    if (this.componentCount > 1) this.dropLoose(passes)
    return { passes, cost: this.costOf(passes), ends: [...this.ends.fixed, ...join.ends] }
  }
}
