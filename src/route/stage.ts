import type { NearPart, Surroundings } from './near-part.ts'
import type { Passable } from './passable.ts'
import { type Effort, searchLinks } from './search.ts'
import { Metric } from './shortest-paths.ts'
import { solveTask } from './solve-task.ts'
import { type FreeEnds, minimumTJoin } from './t-join.ts'
import { type Link, type Solution, Task, type WalkEnds } from './task.ts'

/** No given port: the walk may begin, or end, wherever it is cheapest. */
export const ANYWHERE = -1

/** In stages of up to so many local edges an estimate is a short search of its own instead of a frozen tree of links. */
const SMALL = 150
/** The pieces of a stage that hangs together, and two ports off it. */
const LOOSE = 3
const QUICK: Effort = { iterations: 15, seed: 1 }

/** A stage looks at first at so many vertices, and at so many times its own. */
const FIRST_LOOK = 100
const LOOK_ROUND = 3
/** Where that proves to be too few, it looks at so many times more. */
const LOOK_FURTHER = 4
/** Between more ends than this the largest distance is only estimated, from above. */
const MANY_ENDS = 100

/** What a stage of the work is: pieces that one walk stitches before anything else. */
export interface StageWork {
  /** Index of the area in the plan. */
  readonly area: number
  readonly pieces: readonly number[]
  /** The same for the same pieces. */
  readonly key: number
  /** What may be passed over beside the pieces. */
  readonly passable: Passable
  readonly odd: readonly number[]
  readonly vertices: readonly number[]
}

/** The extra passes of a stage over original edges, and where the walk comes in and goes out. */
export interface StagePlan {
  readonly local: NearPart
  readonly passes: Uint8Array
  readonly start: number
  readonly end: number
}

interface Settled {
  readonly solution: Solution
  readonly local: NearPart
}

/** Where a stage lies, and how hard to try. */
export interface StageSite {
  readonly surroundings: Surroundings
  /** Per edge of the whole, the cost of one extra pass; at least the network's own. */
  readonly cost: Float64Array
  readonly effort: Effort
}

/**
 * One stage of the work with its table: the cost c(p, q) of stitching it from way in p to way out q, asked for lazily.
 * The table is symmetrical. Where the pieces hang together its values are exact; otherwise they are estimates with a
 * frozen tree of links, until `settle` solves the pair for good.
 *
 * A stage looks only at what is near it. An extra pass lies on a path between two of its vertices; a path that leaves the
 * part looked at is at least twice as long as its radius. What costs more than that, where a path inside may be as long, is
 * not sure: it costs at least that, and if it matters, the stage looks further.
 */
export class Stage {
  private part: NearPart | undefined
  private distances: Metric | undefined
  private pieces: Task | undefined
  private furthest: number | undefined
  private readonly nearest = new Map<number, number>()
  private readonly table = new Map<string, number>()
  private readonly unsure = new Set<string>()
  private readonly settled = new Map<string, Settled | undefined>()
  private frozen: readonly Link[] | undefined
  private look: { vertices: number; radius: number }

  constructor(
    readonly work: StageWork,
    private readonly site: StageSite,
    private readonly ports: readonly number[],
  ) {
    this.look = { vertices: FIRST_LOOK + LOOK_ROUND * work.vertices.length, radius: 0 }
  }

  private get local(): NearPart {
    const { surroundings, cost } = this.site
    this.part ??= surroundings.part({ ...this.work, ports: this.ports, cost }, this.look)
    return this.part
  }

  private get metric(): Metric {
    this.distances ??= new Metric(this.local.network)
    return this.distances
  }

  /** Lets go of what can be found again. */
  rest(): void {
    this.part = undefined
    this.distances = undefined
    this.pieces = undefined
    this.furthest = undefined
    this.nearest.clear()
    this.frozen = undefined
  }

  /**
   * Whether a way round outside, between two vertices, can make this cost less: not if it is longer than all of it, or
   * than any way inside.
   */
  private isSure(cost: number): boolean {
    const { radius } = this.local
    return radius === Number.POSITIVE_INFINITY || cost <= 2 * radius || this.spread <= 2 * radius
  }

  /** No two vertices that a path may have to join lie further apart, in the part looked at. */
  private get spread(): number {
    this.furthest ??= this.measureSpread()
    return this.furthest
  }

  private measureSpread(): number {
    const ends = [...new Set([...this.base.terminals([]), ...this.ports.map((x) => this.port(x))])]
    const furthest = (from: number) => {
      const { distance } = this.metric.row(from)
      return ends.reduce((most, x) => Math.max(most, distance[x]!), 0)
    }
    if (ends.length === 0) return 0
    if (ends.length > MANY_ENDS) return 2 * furthest(ends[0]!)
    return Math.max(...ends.map(furthest))
  }

  /** Answers again, each time looking further, until nothing that was left out can make it cheaper. */
  private sure<T>(answer: () => T, costOf: (found: T) => number): T {
    for (;;) {
      const found = answer()
      if (this.isSure(costOf(found))) return found
      this.lookFurther()
    }
  }

  /** Far enough to be sure of everything, or simply further. */
  private lookFurther(): void {
    const { vertices } = this.look
    const enough = this.spread / 2
    this.look = Number.isFinite(enough)
      ? { vertices, radius: enough }
      : { vertices: LOOK_FURTHER * vertices, radius: this.local.radius }
    this.rest()
  }

  /** No walk that stitches this stage by itself, between whatever ends, costs less. */
  get parityBound(): number {
    const bound = () => this.task(ANYWHERE, ANYWHERE).join([])?.cost ?? Number.POSITIVE_INFINITY
    const cost = this.sure(bound, (found) => found)
    return Number.isFinite(cost) ? cost : 0
  }

  /** The vertex here. */
  private port(x: number): number {
    return this.local.local.get(x)!
  }

  private task(p: number, q: number): Task {
    const fixed = [p, q].filter((x) => x !== ANYWHERE).map((x) => this.port(x))
    const ends: WalkEnds = { fixed, free: (2 - fixed.length) as WalkEnds['free'] }
    return new Task(this.local.network, ends, this.metric)
  }

  /** The cost from p to q, or less as long as it is not sure; Infinity if the stage cannot be stitched so. */
  cost(p: number, q: number): number {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    let cost = this.table.get(key)
    if (cost === undefined) {
      cost = this.estimate(p, q)
      if (!this.isSure(cost)) {
        cost = 2 * this.local.radius
        this.unsure.add(key)
      }
      this.table.set(key, cost)
    }
    return cost
  }

  /** Makes sure of the cost from p to q; true if that changed it. */
  makeSure(p: number, q: number): boolean {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    if (!this.unsure.delete(key)) return false
    const cost = this.sure(
      () => this.estimate(p, q),
      (found) => found,
    )
    const before = this.table.get(key)
    this.table.set(key, cost)
    return cost !== before
  }

  /** Of the pieces alone. */
  private get base(): Task {
    this.pieces ??= this.task(ANYWHERE, ANYWHERE)
    return this.pieces
  }

  /** The cost between ports on pieces that hang together, where parity is all that matters. */
  private parityCost(p: number, q: number): number | undefined {
    const { base } = this
    if (base.componentCount !== 1) return undefined
    const ports = [p, q].filter((x) => x !== ANYWHERE).map((x) => this.port(x))
    if (ports.some((x) => base.component[x] === -1)) return undefined
    const terminals = new Set(base.terminals([]))
    for (const x of ports) if (!terminals.delete(x)) terminals.add(x)
    const join = minimumTJoin(this.metric, [...terminals], (2 - ports.length) as FreeEnds)
    return join?.cost ?? Number.POSITIVE_INFINITY
  }

  private estimate(p: number, q: number): number {
    const parity = this.parityCost(p, q)
    if (parity !== undefined) return parity
    const task = this.task(p, q)
    const direct = this.isLoose(task) ? undefined : task.evaluate([])
    if (direct) return direct.cost
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
        searchLinks(this.task(ANYWHERE, ANYWHERE), { ...this.site.effort, iterations: 20 })?.links ?? []
    return this.frozen
  }

  /** A link from each port off the pieces to the nearest vertex of a piece. */
  private attachments(task: Task): Link[] {
    return [...new Set(task.ends.fixed)].flatMap((a) => {
      if (this.base.component[a] !== -1) return []
      const b = this.nearestOnPiece(a)
      return b === -1 ? [] : [{ a, b }]
    })
  }

  /** The vertex of a piece that is nearest to a port off the pieces, -1 if none can be reached. */
  private nearestOnPiece(a: number): number {
    const known = this.nearest.get(a)
    if (known !== undefined) return known
    const { distance } = this.metric.row(a)
    let b = -1
    this.base.component.forEach((component, x) => {
      if (component !== -1 && Number.isFinite(distance[x]!) && (b === -1 || distance[x]! < distance[b]!))
        b = x
    })
    this.nearest.set(a, b)
    return b
  }

  /**
   * The solution from p to q. Where pieces must be joined, a way round outside may meet several of them: then all of what
   * it can cost must lie within the part.
   */
  private solve(p: number, q: number): Solution | undefined {
    for (;;) {
      const solved = this.sure(
        () => solveTask(this.task(p, q), this.site.effort),
        (solution) => solution?.cost ?? Number.POSITIVE_INFINITY,
      )
      if (!solved || this.base.componentCount === 1 || solved.cost <= 2 * this.local.radius) return solved
      this.look = { ...this.look, radius: solved.cost / 2 }
      this.rest()
    }
  }

  /** Solves the pair for good; true if that changed its cost in the table. */
  settle(p: number, q: number): boolean {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    if (this.settled.has(key)) return false
    const solved = this.solve(p, q)
    this.settled.set(key, solved && { solution: solved, local: this.local })
    const cost = solved?.cost ?? Number.POSITIVE_INFINITY
    const before = this.table.get(key)
    this.table.set(key, cost)
    return cost !== before
  }

  /** Whether settling the pair found a solution. */
  hasPlan(p: number, q: number): boolean {
    return this.settled.get(p < q ? `${p} ${q}` : `${q} ${p}`) !== undefined
  }

  /** The settled solution from p to q, seen from p. */
  plan(p: number, q: number): StagePlan {
    const key = p < q ? `${p} ${q}` : `${q} ${p}`
    const { solution, local } = this.settled.get(key)!
    const [start, end] = this.endsFrom(p, q, { solution, local })
    return { local, passes: solution.passes, start, end }
  }

  private endsFrom(p: number, q: number, { solution, local }: Settled): [number, number] {
    if (p !== ANYWHERE && q !== ANYWHERE) return [p, q]
    const found = solution.ends.map((x) => local.original[x]!)
    if (found.length === 0) return [this.work.vertices[0]!, this.work.vertices[0]!]
    const [first, second] = found as [number, number]
    if (p === ANYWHERE && q === ANYWHERE) return [first, second]
    return p === ANYWHERE ? [second, q] : [p, second]
  }
}
