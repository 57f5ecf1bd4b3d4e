import { invariant } from '../error.ts'
import { dot, type Point, scale, subtract, unit } from '../geometry/point.ts'
import type { RouteGraph } from './graph.ts'
import { UnionFind } from './union-find.ts'

/** One pass over an edge. */
export interface Pass {
  readonly edge: number
  /** True from u to v. */
  readonly forward: boolean
}

/** What to walk: every entry of `edges` is one pass; an edge that is passed twice is listed twice. */
export interface WalkTask {
  readonly edges: readonly number[]
  readonly start: number
  readonly end: number
}

const NO_HALF = -1
/** Turning back on the same edge is worse than any turn. */
const U_TURN = 10
const LOOP_ON_ITSELF = 5
/** Leaving a strand is worse than any turn within it. */
const OTHER_STRAND = 3

/** The direction in which a half-edge leaves its vertex, if it is known. */
function directionOf(graph: RouteGraph, edge: number, atU: boolean): Point | undefined {
  const e = graph.edges[edge]!
  const given = atU ? e.directionU : e.directionV
  if (given) return unit(given)
  const { positions } = graph
  if (!positions) return undefined
  const along = unit(subtract(positions[e.v]!, positions[e.u]!))
  return atU ? along : scale(along, -1)
}

/**
 * The half-edges of a walk and how they follow each other. Half 2c is pass c at its u, half 2c + 1 at its v. At every
 * vertex the halves are put in pairs: a pair is arriving by one and leaving by the other. A half that begins or ends the
 * walk is paired with NO_HALF.
 */
class Pairing {
  private readonly next: Int32Array
  private readonly directions: (Point | undefined)[] = []
  private readonly trails: UnionFind
  private readonly halvesAt = new Map<number, number[]>()

  constructor(
    private readonly graph: RouteGraph,
    private readonly task: WalkTask,
  ) {
    this.next = new Int32Array(2 * task.edges.length).fill(NO_HALF)
    this.trails = new UnionFind(task.edges.length)
    task.edges.forEach((edge, c) => {
      for (const side of [0, 1]) {
        this.directions.push(directionOf(graph, edge, side === 0))
        const vertex = side === 0 ? graph.edges[edge]!.u : graph.edges[edge]!.v
        const halves = this.halvesAt.get(vertex)
        if (halves) halves.push(2 * c + side)
        else this.halvesAt.set(vertex, [2 * c + side])
      }
    })
  }

  /** How far from straight on it is to arrive by `a` and leave by `b`: 0 straight, 2 back, more off the strand or back over the same edge. */
  private turn(a: number, b: number): number {
    if (a === NO_HALF || b === NO_HALF) return 0
    if (a >> 1 === b >> 1) return LOOP_ON_ITSELF
    const [from, to] = [this.task.edges[a >> 1]!, this.task.edges[b >> 1]!]
    const leaves = this.graph.edges[from]!.strand !== this.graph.edges[to]!.strand
    const extra = (from === to ? U_TURN : 0) + (leaves ? OTHER_STRAND : 0)
    const da = this.directions[a]
    const db = this.directions[b]
    return extra + (da && db ? 1 + dot(da, db) : 1)
  }

  private join(a: number, b: number): void {
    if (a !== NO_HALF) this.next[a] = b
    if (b !== NO_HALF) this.next[b] = a
    if (a !== NO_HALF && b !== NO_HALF) this.trails.union(a >> 1, b >> 1)
  }

  /** Pairs the halves at a vertex, straightest first; one is left over where the walk begins or ends. */
  private pairUp(halves: readonly number[]): void {
    if (halves.length === 2) {
      this.join(halves[0]!, halves[1]!)
      return
    }
    const options: [number, number, number][] = []
    halves.forEach((a, i) => {
      for (const b of halves.slice(i + 1)) options.push([this.turn(a, b), a, b])
    })
    options.sort((x, y) => x[0] - y[0] || x[1] - y[1] || x[2] - y[2])
    const done = new Set<number>()
    for (const [, a, b] of options) {
      if (done.has(a) || done.has(b)) continue
      done.add(a).add(b)
      this.join(a, b)
    }
  }

  /** The pairs at a vertex, each once, the lower half first. */
  private pairsAt(halves: readonly number[]): [number, number][] {
    return halves.flatMap((a) => {
      const b = this.next[a]!
      return b === NO_HALF || a < b ? [[a, b] as [number, number]] : []
    })
  }

  /** Swaps two pairs of different trails, at the least turning, until one trail passes through the vertex. */
  private mergeTrails(halves: readonly number[]): void {
    for (;;) {
      const pairs = this.pairsAt(halves)
      let best: { cost: number; joins: [number, number][] } | undefined
      for (let i = 0; i < pairs.length; i++)
        for (let j = i + 1; j < pairs.length; j++) {
          const [a, b] = pairs[i]!
          const [c, d] = pairs[j]!
          if (this.trails.find(a >> 1) === this.trails.find(c >> 1)) continue
          const before = this.turn(a, b) + this.turn(c, d)
          const straight = this.turn(a, c) + this.turn(b, d) - before
          const crossed = this.turn(a, d) + this.turn(b, c) - before
          const cost = Math.min(straight, crossed)
          if (best && cost >= best.cost) continue
          best = {
            cost,
            joins:
              straight <= crossed
                ? [
                    [a, c],
                    [b, d],
                  ]
                : [
                    [a, d],
                    [b, c],
                  ],
          }
        }
      if (!best) return
      for (const [a, b] of best.joins) this.join(a, b)
    }
  }

  /** The half with which the walk begins; a closed walk is cut at its sharpest turn there. */
  private cut(): number {
    const halves = this.halvesAt.get(this.task.start)
    invariant(halves, `the walk touches its start ${this.task.start}`)
    if (this.task.start !== this.task.end) return halves.find((h) => this.next[h] === NO_HALF)!
    const [worst] = this.pairsAt(halves).sort((x, y) => this.turn(...y) - this.turn(...x))
    const [a, b] = worst!
    this.next[a] = NO_HALF
    this.next[b] = NO_HALF
    return a
  }

  walk(): Pass[] {
    for (const halves of this.halvesAt.values()) this.pairUp(halves)
    for (const halves of this.halvesAt.values()) if (halves.length > 2) this.mergeTrails(halves)
    const passes: Pass[] = []
    for (let half = this.cut(); half !== NO_HALF; half = this.next[half ^ 1]!)
      passes.push({ edge: this.task.edges[half >> 1]!, forward: (half & 1) === 0 })
    invariant(passes.length === this.task.edges.length, 'the walk passes everything it was given')
    return passes
  }
}

/**
 * An Euler walk from `start` to `end` over the given passes: along its strand, straight on at crossings where
 * directions are known, no turning back unless there is nothing else.
 *
 * @param task  its degrees are even but at the two ends; connected
 * @throws Error if the task breaks that: our bug
 * @source pairing the edges at every vertex and merging the closed trails by exchanging two pairs: after Kotzig 1968
 *   (compatible Euler tours)
 */
export function eulerWalk(graph: RouteGraph, task: WalkTask): Pass[] {
  return task.edges.length === 0 ? [] : new Pairing(graph, task).walk()
}
