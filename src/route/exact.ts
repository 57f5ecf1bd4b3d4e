import { type CutPrices, priceCuts } from './cut-prices.ts'
import { Metric } from './shortest-paths.ts'
import { minimumTJoin } from './t-join.ts'
import type { Link, Solution, Task } from './task.ts'

/**
 * How much work the search may do, as a multiple of its limit of nodes: terminals x (terminals + edges), summed over
 * all matchings. Large tasks stop by this, small ones by the number of nodes.
 */
const WORK_PER_NODE = 10_000

/** The search is first tried with so few nodes without prices on cuts, which cost more to find. */
const QUICK_NODES = 30
/** Below this limit of nodes prices on cuts would cost more than the search they help. */
const PRICED_NODES = 1000

/** What the exact search ended with. */
export interface ExactResult {
  /** A solution cheaper than the one it was given, if there is one that it met. */
  readonly solution: Solution | undefined
  /** True if the best solution known is proved to be the cheapest. */
  readonly proved: boolean
}

/** A part of the search: edges that are passed at least once more, and edges that are not passed again. */
interface Node {
  readonly forced: readonly ForcedEdge[]
  readonly forcedCost: number
  readonly banned: Uint8Array
  readonly metric: Metric
  /** The metric of the costs that the prices of cuts leave. */
  readonly reduced: Metric | undefined
}

interface Relaxed {
  readonly cost: number
  readonly passes: Uint8Array
  readonly ends: readonly number[]
}

/**
 * Branch and bound on cuts. A node's bound is its forced edges and the least T-join around them; if that is connected it
 * is the node's optimum. If not, some piece is cut off, and any walk must cross that cut: one branch per edge of it.
 */
class CutSearch {
  best: Solution | undefined
  private nodes = 0
  private work = 0
  stopped = false

  private incumbent: number
  private readonly nodeLimit: number
  private readonly prices: CutPrices | undefined

  constructor(
    private readonly task: Task,
    from: { incumbent: number; nodeLimit: number; prices?: CutPrices },
  ) {
    this.incumbent = from.incumbent
    this.nodeLimit = from.nodeLimit
    this.prices = from.prices
  }

  run(): void {
    const { task } = this
    const banned = new Uint8Array(task.network.edgeCount)
    const reduced = this.prices && new Metric(this.prices.reduced)
    const root: Node = { forced: [], forcedCost: 0, banned, metric: task.metric, reduced }
    if (this.pricedBound(root, task.terminals([])) < this.incumbent) this.visit(root)
  }

  /** The bound by reduced costs, with `edge` forced as well. */
  private pricedBound(node: Node, terminals: readonly number[], edge?: number): number {
    if (!this.prices || !node.reduced) return Number.NEGATIVE_INFINITY
    const { cost } = this.prices.reduced
    const join = minimumTJoin(node.reduced, terminals, this.task.ends.free)
    if (!join) return Number.POSITIVE_INFINITY
    const forced = node.forced.reduce((sum, link) => sum + cost[link.edge]!, 0)
    return this.prices.offset + forced + join.cost + (edge === undefined ? 0 : cost[edge]!)
  }

  /** The bound once `edge` is forced as well. */
  private boundWith(node: Node, edge: number): number {
    const { u, v, cost, edgeCount } = this.task.network
    const terminals = this.task.terminals([...node.forced, { a: u[edge]!, b: v[edge]! }])
    this.work += (this.prices ? 2 : 1) * terminals.length * (terminals.length + edgeCount)
    const priced = this.pricedBound(node, terminals, edge)
    if (priced >= this.incumbent) return priced
    const join = minimumTJoin(node.metric, terminals, this.task.ends.free)
    return join ? Math.max(priced, node.forcedCost + join.cost + cost[edge]!) : Number.POSITIVE_INFINITY
  }

  private relax(node: Node): Relaxed | undefined {
    const { task } = this
    const join = minimumTJoin(node.metric, task.terminals(node.forced), task.ends.free)
    if (!join) return undefined
    const passes = new Uint8Array(task.network.edgeCount)
    for (const { edge } of node.forced) passes[edge]!++
    for (const [a, b] of join.pairs) node.metric.eachEdge(a, b, (e) => passes[e]!++)
    return { cost: node.forcedCost + join.cost, passes, ends: [...task.ends.fixed, ...join.ends] }
  }

  private accept({ passes, ends }: Relaxed): void {
    const { task } = this
    const tidy = passes.map((k, e) => (task.network.required[e] ? k & 1 : k > 2 ? 2 - (k & 1) : k))
    task.dropDoubles(tidy)
    task.dropLoose(tidy)
    const cost = task.costOf(tidy)
    if (cost >= this.incumbent) return
    this.incumbent = cost
    this.best = { passes: tidy, cost, ends }
  }

  /** The open edges around the piece that has the fewest. */
  private smallestCut(node: Node, passes: Uint8Array): number[] {
    const { task } = this
    const { u, v, edgeCount } = task.network
    const { pieceOf, held } = task.vertexPieces(passes)
    const cuts = new Map<number, number[]>()
    for (const piece of held) cuts.set(piece, [])
    for (let e = 0; e < edgeCount; e++) {
      const a = pieceOf[u[e]!]!
      const b = pieceOf[v[e]!]!
      if (a === b || node.banned[e]) continue
      cuts.get(a)?.push(e)
      cuts.get(b)?.push(e)
    }
    return [...cuts.values()].reduce((least, cut) => (cut.length < least.length ? cut : least))
  }

  private visit(node: Node): void {
    if (this.nodes++ >= this.nodeLimit || this.work >= WORK_PER_NODE * this.nodeLimit) {
      this.stopped = true
      return
    }
    const relaxed = this.relax(node)
    if (!relaxed || relaxed.cost >= this.incumbent) return
    if (this.task.isConnected(relaxed.passes)) {
      this.accept(relaxed)
      return
    }
    this.branch(node, this.smallestCut(node, relaxed.passes))
  }

  private branch(node: Node, cut: readonly number[]): void {
    const { network } = this.task
    const banned = node.banned.slice()
    const open: { edge: number; bound: number }[] = []
    for (const edge of cut) {
      const bound = this.boundWith(node, edge)
      if (bound >= this.incumbent) banned[edge] = 1
      else open.push({ edge, bound })
    }
    open.sort((x, y) => x.bound - y.bound || x.edge - y.edge)
    let rest: Node = open.length === cut.length ? node : this.without(node, banned)
    for (const { edge, bound } of open) {
      if (this.stopped) return
      if (bound < this.incumbent) {
        const link: ForcedEdge = { a: network.u[edge]!, b: network.v[edge]!, edge }
        this.visit({
          ...rest,
          forced: [...node.forced, link],
          forcedCost: node.forcedCost + network.cost[edge]!,
        })
      }
      banned[edge] = 1
      rest = this.without(node, banned)
    }
  }

  /** The same node with more edges banned. */
  private without(node: Node, banned: Uint8Array): Node {
    const now = banned.slice()
    return {
      ...node,
      banned: now,
      metric: new Metric(this.task.network, now),
      reduced: this.prices && new Metric(this.prices.reduced, now),
    }
  }
}

interface ForcedEdge extends Link {
  readonly edge: number
}

/**
 * Looks for a solution cheaper than `incumbent`, and proves it if there is none.
 *
 * @param nodeLimit  gives up after this many nodes; a count, so that the result does not depend on the machine
 * @source branch and bound over the connectivity cuts of the rural postman problem (the cuts: Corberán & Sanchis, EJOR 79,
 *   1994) with T-joins as bounds, at the real costs and at costs reduced by prices on cuts
 */
export function searchExactly(task: Task, incumbent: number, nodeLimit: number): ExactResult {
  const quick = new CutSearch(task, { incumbent, nodeLimit: Math.min(nodeLimit, QUICK_NODES) })
  quick.run()
  if (!quick.stopped || nodeLimit < PRICED_NODES) return { solution: quick.best, proved: !quick.stopped }
  const target = quick.best?.cost ?? incumbent
  const search = new CutSearch(task, { incumbent: target, nodeLimit, prices: priceCuts(task, target) })
  search.run()
  return { solution: search.best ?? quick.best, proved: !search.stopped }
}
