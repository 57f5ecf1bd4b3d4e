import { type Contracted, contract } from './contract.ts'
import type { Network } from './network.ts'
import { type Effort, searchLinks } from './search.ts'
import { Metric } from './shortest-paths.ts'
import { solveTask } from './solve-task.ts'
import { type Ends, type Link, type Solution, Task } from './task.ts'

/** No given port: the walk may begin, or end, wherever it is cheapest. */
export const ANYWHERE = -1

/** In stages of up to so many local edges an estimate is a short search of its own instead of a frozen tree of links. */
const SMALL = 150
/** The pieces of a stage that hangs together, and two ports off it. */
const LOOSE = 3
const QUICK: Effort = { iterations: 15, seed: 1 }

/** What a stage of the work is: pieces that one walk stitches before anything else. */
export interface StageWork {
  /** Index of the area in the plan. */
  readonly area: number
  readonly pieces: readonly number[]
  /** Per edge of the whole: 1 = one of the pieces, 2 = may be passed, 0 = not for use here. */
  readonly kind: Uint8Array
  readonly odd: readonly number[]
  readonly vertices: readonly number[]
}

/** The extra passes of a stage over original edges, and where the walk comes in and goes out. */
export interface StagePlan {
  readonly local: Contracted
  readonly passes: Uint8Array
  readonly start: number
  readonly end: number
}

/**
 * One stage of the work with its table: the cost c(p, q) of stitching it from way in p to way out q, asked for lazily.
 * The table is symmetrical. Where the pieces hang together its values are exact; otherwise they are estimates with a
 * frozen tree of links, until `settle` solves the pair for good.
 */
export class Stage {
  readonly local: Contracted
  private readonly metric: Metric
  private readonly table = new Map<string, number>()
  private readonly settled = new Map<string, Solution | undefined>()
  private frozen: readonly Link[] | undefined
  readonly parityBound: number

  constructor(
    readonly work: StageWork,
    network: Network,
    ports: Iterable<number>,
    private readonly effort: Effort,
    cost?: Float64Array,
  ) {
    this.local = contract(network, { kind: work.kind, keep: ports, ...(cost && { cost }) })
    this.metric = new Metric(this.local.network)
    this.parityBound = this.task(ANYWHERE, ANYWHERE).join([])?.cost ?? 0
  }

  /** The vertex here, or -1 if the port is cut off from this stage. */
  private port(x: number): number {
    return this.local.local[x]!
  }

  private task(p: number, q: number): Task {
    const fixed = [p, q].filter((x) => x !== ANYWHERE).map((x) => this.port(x))
    const ends: Ends = { fixed, free: (2 - fixed.length) as Ends['free'] }
    return new Task(this.local.network, ends, this.metric)
  }

  /** The cost from p to q, Infinity if the stage cannot be stitched so. */
  cost(p: number, q: number): number {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    let cost = this.table.get(key)
    if (cost === undefined) {
      cost = this.estimate(p, q)
      this.table.set(key, cost)
    }
    return cost
  }

  private estimate(p: number, q: number): number {
    const task = this.task(p, q)
    const direct = this.isLoose(task) ? undefined : task.evaluate([])
    if (direct) {
      this.settled.set(p < q ? `${p} ${q}` : `${q} ${p}`, direct)
      return direct.cost
    }
    if (this.local.network.edgeCount <= SMALL)
      return searchLinks(task, QUICK)?.solution.cost ?? Number.POSITIVE_INFINITY
    const links = [...this.frozenLinks(), ...this.attachments(task)]
    const join = task.join(links)
    if (!join) return Number.POSITIVE_INFINITY
    return links.reduce((sum, { a, b }) => sum + this.metric.distance(a, b), join.cost)
  }

  /** Whether a large stage is in more pieces than parity alone is likely to join. */
  private isLoose(task: Task): boolean {
    return this.local.network.edgeCount > SMALL && task.componentCount > LOOSE
  }

  /** A tree of links that joins the pieces, found once without regard to ports. */
  private frozenLinks(): readonly Link[] {
    if (!this.frozen)
      this.frozen =
        searchLinks(this.task(ANYWHERE, ANYWHERE), { ...this.effort, iterations: 20 })?.links ?? []
    return this.frozen
  }

  /** A link from each port off the pieces to the nearest vertex of a piece. */
  private attachments(task: Task): Link[] {
    const onPiece = new Set(this.work.vertices.map((x) => this.port(x)).filter((x) => x !== -1))
    return [...new Set(task.ends.fixed)].flatMap((a) => {
      if (onPiece.has(a)) return []
      const { distance } = this.metric.row(a)
      let b = -1
      for (const x of onPiece) if (b === -1 || distance[x]! < distance[b]!) b = x
      return b !== -1 && Number.isFinite(distance[b]!) ? [{ a, b }] : []
    })
  }

  /** Solves the pair for good; true if that changed its cost in the table. */
  settle(p: number, q: number): boolean {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    if (this.settled.has(key)) return false
    const solved = solveTask(this.task(p, q), this.effort)
    this.settled.set(key, solved)
    const cost = solved?.cost ?? Number.POSITIVE_INFINITY
    const before = this.table.get(key)
    this.table.set(key, cost)
    return cost !== before
  }

  /** The settled solution from p to q, seen from p. */
  plan(p: number, q: number): StagePlan {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    const solution = this.settled.get(key)!
    const [start, end] = this.endsFrom(p, q, solution)
    return { local: this.local, passes: solution.passes, start, end }
  }

  private endsFrom(p: number, q: number, solution: Solution): [number, number] {
    if (p !== ANYWHERE && q !== ANYWHERE) return [p, q]
    const found = solution.ends.map((x) => this.local.original[x]!)
    if (found.length === 0) return [this.work.vertices[0]!, this.work.vertices[0]!]
    const [first, second] = found as [number, number]
    if (p === ANYWHERE && q === ANYWHERE) return [first, second]
    return p === ANYWHERE ? [second, q] : [p, second]
  }
}
