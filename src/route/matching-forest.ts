import type { MatchingProblem } from './matching-problem.ts'

/** No tree of the search has reached it. */
export const FREE = 0
/** At an even distance from a free vertex along a tree. */
export const OUTER = 1
/** At an odd distance. */
export const INNER = 2
const MARKED = 5

/**
 * What the search for a matching knows: duals y (vertices) and z (blossoms), kept in units of a quarter of the cost, all
 * of one parity, so that every step is an integer; the trees that it grows; and the blossoms in them. An "end" 2e + side
 * is edge e seen from one side; `mate`, `labelEnd` and the ends of a blossom are such numbers.
 */
export class MatchingForest {
  protected readonly n: number
  protected readonly price: Float64Array
  protected readonly vertexAt: Int32Array
  protected readonly first: Int32Array
  protected readonly ends: Int32Array
  readonly mate: Int32Array
  readonly y: Float64Array
  protected readonly label: Uint8Array
  protected readonly labelEnd: Int32Array
  readonly inBlossom: Int32Array
  readonly parent: Int32Array
  protected readonly base: Int32Array
  protected readonly children: (number[] | undefined)[]
  protected readonly childEnds: (number[] | undefined)[]
  protected readonly bestEdge: Int32Array
  protected readonly bestEdges: (number[] | undefined)[]
  protected readonly unused: number[] = []
  protected readonly tight: Uint8Array
  protected readonly queue: number[] = []
  protected readonly bestTo: Int32Array

  constructor(problem: MatchingProblem) {
    const n = problem.vertexCount
    const m = problem.u.length
    this.n = n
    this.price = problem.cost.map((c) => 4 * c)
    this.vertexAt = new Int32Array(2 * m)
    this.first = new Int32Array(n + 1)
    for (let k = 0; k < m; k++) {
      this.vertexAt[2 * k] = problem.u[k]!
      this.vertexAt[2 * k + 1] = problem.v[k]!
      this.first[problem.u[k]! + 1]!++
      this.first[problem.v[k]! + 1]!++
    }
    for (let v = 0; v < n; v++) this.first[v + 1]! += this.first[v]!
    const next = this.first.slice()
    this.ends = new Int32Array(2 * m)
    for (let p = 0; p < 2 * m; p++) this.ends[next[this.vertexAt[p]!]!++] = p ^ 1
    this.mate = new Int32Array(n).fill(-1)
    this.y = new Float64Array(2 * n)
    this.label = new Uint8Array(2 * n)
    this.labelEnd = new Int32Array(2 * n).fill(-1)
    this.inBlossom = Int32Array.from({ length: n }, (_, v) => v)
    this.parent = new Int32Array(2 * n).fill(-1)
    this.base = Int32Array.from({ length: 2 * n }, (_, v) => (v < n ? v : -1))
    this.children = new Array(2 * n)
    this.childEnds = new Array(2 * n)
    this.bestEdge = new Int32Array(2 * n).fill(-1)
    this.bestEdges = new Array(2 * n)
    for (let b = 2 * n - 1; b >= n; b--) this.unused.push(b)
    this.tight = new Uint8Array(m)
    this.bestTo = new Int32Array(2 * n)
  }

  protected slack(k: number): number {
    return this.price[k]! - this.y[this.vertexAt[2 * k]!]! - this.y[this.vertexAt[2 * k + 1]!]!
  }

  protected leaves(b: number, visit: (v: number) => void): void {
    if (b < this.n) visit(b)
    else for (const t of this.children[b]!) this.leaves(t, visit)
  }

  protected assignLabel(w: number, t: number, p: number): void {
    const b = this.inBlossom[w]!
    this.label[w] = t
    this.label[b] = t
    this.labelEnd[w] = p
    this.labelEnd[b] = p
    this.bestEdge[w] = -1
    this.bestEdge[b] = -1
    if (t === OUTER) this.leaves(b, (v) => this.queue.push(v))
    else {
      const base = this.base[b]!
      const mate = this.mate[base]!
      this.assignLabel(this.vertexAt[mate]!, OUTER, mate ^ 1)
    }
  }

  /** The base of the new blossom through an edge between outer v and w, or -1 if their trees differ. */
  protected scanBlossom(from: number, to: number): number {
    const path: number[] = []
    let base = -1
    let v = from
    let w = to
    while (v !== -1 || w !== -1) {
      let b = this.inBlossom[v]!
      if (this.label[b]! & 4) {
        base = this.base[b]!
        break
      }
      path.push(b)
      this.label[b] = MARKED
      if (this.labelEnd[b] === -1) v = -1
      else {
        b = this.inBlossom[this.vertexAt[this.labelEnd[b]!]!]!
        v = this.vertexAt[this.labelEnd[b]!]!
      }
      if (w !== -1) [v, w] = [w, v]
    }
    for (const b of path) this.label[b] = OUTER
    return base
  }
}
