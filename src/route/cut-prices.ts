import type { Network } from './network.ts'
import { Metric } from './shortest-paths.ts'
import { minimumTJoin, type TJoin } from './t-join.ts'
import type { Task } from './task.ts'

/**
 * Prices on cuts that a walk must cross: a network of reduced costs, and what the crossings add. For every solution x:
 * cost(x) >= offset + reduced cost(x), so a T-join in the reduced network is a bound that knows about connection.
 */
export interface CutPrices {
  readonly reduced: Network
  readonly offset: number
}

interface Cut {
  readonly inside: Uint8Array
  /** How often a walk crosses it at least. */
  readonly need: number
  price: number
}

const ROUNDS = 80
/** Rounds without a better bound before steps are halved. */
const PATIENCE = 10
const SHORTEST_STRIDE = 1 / 32

/** How often a walk must cross the boundary of a set that holds some, not all, of the pieces. */
function crossings({ ends }: Task, inside: Uint8Array): number {
  if (ends.free > 0) return 1
  return ends.fixed.filter((x) => inside[x]).length === 1 ? 1 : 2
}

const crosses = ({ inside }: Cut, { u, v }: Network, e: number): boolean => inside[u[e]!] !== inside[v[e]!]

/** Lowers prices until no edge is priced above its cost, and gives the reduced costs. */
function fitPrices(network: Network, cuts: readonly Cut[]): Float64Array {
  for (const cut of cuts) cut.price = Math.floor(cut.price)
  for (let e = 0; e < network.edgeCount; e++) {
    const over = cuts.filter((cut) => cut.price > 0 && crosses(cut, network, e))
    const sum = over.reduce((total, cut) => total + cut.price, 0)
    if (sum > network.cost[e]!)
      for (const cut of over) cut.price = Math.floor((cut.price * network.cost[e]!) / sum)
  }
  return network.cost.map((cost, e) =>
    cuts.reduce((left, cut) => (crosses(cut, network, e) ? left - cut.price : left), cost),
  )
}

/** Adds the boundaries of the pieces that a relaxed solution leaves apart; returns false if nothing is apart. */
function addCuts(task: Task, passes: Uint8Array, cuts: Map<string, Cut>): boolean {
  const { pieceOf, held } = task.vertexPieces(passes)
  if (held.size <= 1) return false
  for (const piece of held) {
    const inside = Uint8Array.from(pieceOf, (p) => (p === piece ? 1 : 0))
    const key = inside.join('')
    if (!cuts.has(key)) cuts.set(key, { inside, need: crossings(task, inside), price: 0 })
  }
  return true
}

function passesOf(metric: Metric, join: TJoin): Uint8Array {
  const passes = new Uint8Array(metric.network.edgeCount)
  for (const [a, b] of join.pairs) metric.eachEdge(a, b, (e) => passes[e]!++)
  return passes
}

/** The passes and every edge that has become free: what they join has grown out to where prices can rise again. */
const withFreeEdges = (reduced: Network, passes: Uint8Array): Uint8Array =>
  passes.map((k, e) => (k > 0 || reduced.cost[e] === 0 ? 1 : 0))

/** Moves every price along its subgradient: up where the cut is crossed too seldom, down where too often. */
function stepPrices(network: Network, cuts: readonly Cut[], at: { passes: Uint8Array; gap: number }): void {
  const lack = cuts.map((cut) => {
    let crossed = 0
    for (let e = 0; e < at.passes.length; e++)
      if (at.passes[e]! > 0 && crosses(cut, network, e)) crossed += at.passes[e]!
    return cut.need - crossed
  })
  const norm = lack.reduce((sum, g) => sum + g * g, 0)
  if (norm === 0) return
  cuts.forEach((cut, i) => {
    cut.price = Math.max(0, cut.price + (at.gap * lack[i]!) / norm)
  })
}

/**
 * Prices for cuts that raise the bound of a task, by subgradient ascent.
 *
 * @param target  the cost of a known solution, which sets the length of steps
 * @source Lagrangian relaxation of the connectivity cuts: Held & Karp, Math. Programming 1 (1971), for the step rule
 */
export function priceCuts(task: Task, target: number): CutPrices {
  const { network } = task
  const cuts = new Map<string, Cut>()
  const terminals = task.terminals([])
  let best: CutPrices = { reduced: network, offset: 0 }
  let bound = Number.NEGATIVE_INFINITY
  let stride = 1
  let idle = 0
  for (let round = 0; round < ROUNDS; round++) {
    const list = [...cuts.values()]
    const reduced = { ...network, cost: fitPrices(network, list) }
    const offset = list.reduce((sum, cut) => sum + cut.need * cut.price, 0)
    const metric = new Metric(reduced)
    const join = minimumTJoin(metric, terminals, task.ends.free)
    if (!join) return best
    if (offset + join.cost > bound) {
      bound = offset + join.cost
      best = { reduced, offset }
      idle = 0
    } else if (++idle >= PATIENCE) {
      stride /= 2
      idle = 0
    }
    if (bound >= target || stride < SHORTEST_STRIDE) return best
    const passes = passesOf(metric, join)
    addCuts(task, passes, cuts)
    addCuts(task, withFreeEdges(reduced, passes), cuts)
    const gap = stride * (target - offset - join.cost)
    stepPrices(network, [...cuts.values()], { passes, gap })
  }
  return best
}
