/** The edges of a matching problem: integer costs, 0 or more, below 2^48. */
export interface MatchingProblem {
  readonly vertexCount: number
  readonly u: Int32Array
  readonly v: Int32Array
  readonly cost: Float64Array
}

/** A perfect matching of least cost, with the proof that it is least. */
export interface Matching {
  /** The partner of every vertex. */
  readonly partner: Int32Array
  readonly cost: number
  /** The reduced cost that an edge between `a` and `b` of cost `cost` would have: negative = leaving it out was wrong. */
  readonly reducedCost: (a: number, b: number, cost: number) => number
  /** Twice the largest cost at which a left-out edge at `a` could still matter. */
  readonly dual: Float64Array
}

const FREE = 0
const OUTER = 1
const INNER = 2
const MARKED = 5

/**
 * The primal-dual search. Duals y (vertices) and z (blossoms) are kept in units of a quarter of the cost, all of one
 * parity, so that every step is an integer. An "end" 2e + side is edge e seen from one side; `mate`, `labelEnd` and
 * the ends of a blossom are such numbers.
 */
class BlossomSearch {
  private readonly n: number
  private readonly price: Float64Array
  private readonly vertexAt: Int32Array
  private readonly first: Int32Array
  private readonly ends: Int32Array
  readonly mate: Int32Array
  readonly y: Float64Array
  private readonly label: Uint8Array
  private readonly labelEnd: Int32Array
  readonly inBlossom: Int32Array
  readonly parent: Int32Array
  private readonly base: Int32Array
  private readonly children: (number[] | undefined)[]
  private readonly childEnds: (number[] | undefined)[]
  private readonly bestEdge: Int32Array
  private readonly bestEdges: (number[] | undefined)[]
  private readonly unused: number[] = []
  private readonly tight: Uint8Array
  private readonly queue: number[] = []
  private readonly bestTo: Int32Array

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

  private slack(k: number): number {
    return this.price[k]! - this.y[this.vertexAt[2 * k]!]! - this.y[this.vertexAt[2 * k + 1]!]!
  }

  /** Starts from duals that already touch many edges, and pairs greedily along those. */
  warmStart(): void {
    const { n, first, ends, price, y, vertexAt, mate } = this
    for (let v = 0; v < n; v++) {
      let least = Number.POSITIVE_INFINITY
      for (let i = first[v]!; i < first[v + 1]!; i++) least = Math.min(least, price[ends[i]! >> 1]!)
      y[v] = Number.isFinite(least) ? least / 2 : 0
    }
    for (let v = 0; v < n; v++) {
      let least = Number.POSITIVE_INFINITY
      for (let i = first[v]!; i < first[v + 1]!; i++) {
        const p = ends[i]!
        least = Math.min(least, price[p >> 1]! - y[vertexAt[p]!]!)
      }
      if (Number.isFinite(least)) y[v] = least
      if (mate[v] !== -1) continue
      for (let i = first[v]!; i < first[v + 1]!; i++) {
        const p = ends[i]!
        const w = vertexAt[p]!
        if (mate[w] !== -1 || w === v || this.slack(p >> 1) !== 0) continue
        mate[v] = p
        mate[w] = p ^ 1
        break
      }
    }
  }

  private leaves(b: number, visit: (v: number) => void): void {
    if (b < this.n) visit(b)
    else for (const t of this.children[b]!) this.leaves(t, visit)
  }

  private assignLabel(w: number, t: number, p: number): void {
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
  private scanBlossom(from: number, to: number): number {
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

  private addBlossom(base: number, k: number): void {
    const bb = this.inBlossom[base]!
    const b = this.unused.pop()!
    this.base[b] = base
    this.parent[b] = -1
    this.parent[bb] = b
    const path: number[] = []
    const ends: number[] = []
    let v = this.vertexAt[2 * k]!
    for (let bv = this.inBlossom[v]!; bv !== bb; bv = this.inBlossom[v]!) {
      this.parent[bv] = b
      path.push(bv)
      ends.push(this.labelEnd[bv]!)
      v = this.vertexAt[this.labelEnd[bv]!]!
    }
    path.push(bb)
    path.reverse()
    ends.reverse()
    ends.push(2 * k)
    let w = this.vertexAt[2 * k + 1]!
    for (let bw = this.inBlossom[w]!; bw !== bb; bw = this.inBlossom[w]!) {
      this.parent[bw] = b
      path.push(bw)
      ends.push(this.labelEnd[bw]! ^ 1)
      w = this.vertexAt[this.labelEnd[bw]!]!
    }
    this.children[b] = path
    this.childEnds[b] = ends
    this.label[b] = OUTER
    this.labelEnd[b] = this.labelEnd[bb]!
    this.y[b] = 0
    this.leaves(b, (leaf) => {
      if (this.label[this.inBlossom[leaf]!] === INNER) this.queue.push(leaf)
      this.inBlossom[leaf] = b
    })
    this.collectBestEdges(b, path)
  }

  /** The least-slack edge from blossom b to every other outer blossom. */
  private collectBestEdges(b: number, path: readonly number[]): void {
    const bestTo = this.bestTo.fill(-1)
    const consider = (k: number) => {
      let j = this.vertexAt[2 * k + 1]!
      if (this.inBlossom[j] === b) j = this.vertexAt[2 * k]!
      const bj = this.inBlossom[j]!
      if (bj === b || this.label[bj] !== OUTER) return
      if (bestTo[bj] === -1 || this.slack(k) < this.slack(bestTo[bj]!)) bestTo[bj] = k
    }
    for (const child of path) {
      const known = this.bestEdges[child]
      if (known) for (const k of known) consider(k)
      else
        this.leaves(child, (leaf) => {
          for (let i = this.first[leaf]!; i < this.first[leaf + 1]!; i++) consider(this.ends[i]! >> 1)
        })
      this.bestEdges[child] = undefined
      this.bestEdge[child] = -1
    }
    const best: number[] = []
    let least = -1
    for (let x = 0; x < bestTo.length; x++) {
      const k = bestTo[x]!
      if (k === -1) continue
      best.push(k)
      if (least === -1 || this.slack(k) < this.slack(least)) least = k
    }
    this.bestEdges[b] = best
    this.bestEdge[b] = least
  }

  private expandBlossom(b: number, endStage: boolean): void {
    for (const s of this.children[b]!) {
      this.parent[s] = -1
      if (s < this.n) this.inBlossom[s] = s
      else if (endStage && this.y[s] === 0) this.expandBlossom(s, endStage)
      else
        this.leaves(s, (v) => {
          this.inBlossom[v] = s
        })
    }
    if (!endStage && this.label[b] === INNER) this.relabelChildren(b)
    this.label[b] = FREE
    this.labelEnd[b] = -1
    this.children[b] = undefined
    this.childEnds[b] = undefined
    this.base[b] = -1
    this.bestEdges[b] = undefined
    this.bestEdge[b] = -1
    this.unused.push(b)
  }

  /** Labels the children of an expanding inner blossom: the even side stays in the tree, the rest goes free. */
  private relabelChildren(b: number): void {
    const children = this.children[b]!
    const ends = this.childEnds[b]!
    const { vertexAt, label, labelEnd } = this
    const size = children.length
    const child = (i: number) => children[i < 0 ? i + size : i]!
    const endAt = (i: number) => ends[i < 0 ? i + size : i]!
    const entry = this.inBlossom[vertexAt[labelEnd[b]! ^ 1]!]!
    let j = children.indexOf(entry)
    const odd = (j & 1) === 1
    if (odd) j -= size
    const step = odd ? 1 : -1
    const side = odd ? 0 : 1
    let p = labelEnd[b]!
    while (j !== 0) {
      label[vertexAt[p ^ 1]!] = FREE
      label[vertexAt[endAt(j - side) ^ side ^ 1]!] = FREE
      this.assignLabel(vertexAt[p ^ 1]!, INNER, p)
      this.tight[endAt(j - side) >> 1] = 1
      j += step
      p = endAt(j - side) ^ side
      this.tight[p >> 1] = 1
      j += step
    }
    const last = child(j)
    label[vertexAt[p ^ 1]!] = INNER
    label[last] = INNER
    labelEnd[vertexAt[p ^ 1]!] = p
    labelEnd[last] = p
    this.bestEdge[last] = -1
    for (j += step; child(j) !== entry; j += step) {
      const bv = child(j)
      if (label[bv] === OUTER) continue
      let reached = -1
      this.leaves(bv, (v) => {
        if (reached === -1 && label[v] !== FREE) reached = v
      })
      if (reached === -1) continue
      label[reached] = FREE
      label[vertexAt[this.mate[this.base[bv]!]!]!] = FREE
      this.assignLabel(reached, INNER, labelEnd[reached]!)
    }
  }

  /** Turns blossom b so that v becomes its base. */
  private augmentBlossom(b: number, v: number): void {
    let t = v
    while (this.parent[t] !== b) t = this.parent[t]!
    if (t >= this.n) this.augmentBlossom(t, v)
    const children = this.children[b]!
    const ends = this.childEnds[b]!
    const size = children.length
    const i = children.indexOf(t)
    const odd = (i & 1) === 1
    let j = odd ? i - size : i
    const step = odd ? 1 : -1
    const side = odd ? 0 : 1
    while (j !== 0) {
      j += step
      t = children[j < 0 ? j + size : j]!
      const at = j - side
      const p = ends[at < 0 ? at + size : at]! ^ side
      if (t >= this.n) this.augmentBlossom(t, this.vertexAt[p]!)
      j += step
      t = children[j < 0 ? j + size : j]!
      if (t >= this.n) this.augmentBlossom(t, this.vertexAt[p ^ 1]!)
      this.mate[this.vertexAt[p]!] = p ^ 1
      this.mate[this.vertexAt[p ^ 1]!] = p
    }
    this.children[b] = [...children.slice(i), ...children.slice(0, i)]
    this.childEnds[b] = [...ends.slice(i), ...ends.slice(0, i)]
    this.base[b] = this.base[this.children[b]![0]!]!
  }

  private augmentMatching(k: number): void {
    for (const side of [0, 1]) {
      let s = this.vertexAt[2 * k + side]!
      let p = 2 * k + (side ^ 1)
      for (;;) {
        const bs = this.inBlossom[s]!
        if (bs >= this.n) this.augmentBlossom(bs, s)
        this.mate[s] = p
        const back = this.labelEnd[bs]!
        if (back === -1) break
        const bt = this.inBlossom[this.vertexAt[back]!]!
        const through = this.labelEnd[bt]!
        s = this.vertexAt[through]!
        const j = this.vertexAt[through ^ 1]!
        if (bt >= this.n) this.augmentBlossom(bt, j)
        this.mate[j] = through
        p = through ^ 1
      }
    }
  }

  /** Grows the trees over tight edges; true once an augmenting path was used. */
  private grow(): boolean {
    const { queue, first, ends, vertexAt, inBlossom, label, bestEdge } = this
    while (queue.length > 0) {
      const v = queue.pop()!
      for (let i = first[v]!; i < first[v + 1]!; i++) {
        const p = ends[i]!
        const k = p >> 1
        const w = vertexAt[p]!
        if (inBlossom[v] === inBlossom[w]) continue
        const slack = this.tight[k] ? 0 : this.slack(k)
        if (slack <= 0) {
          this.tight[k] = 1
          if (label[inBlossom[w]!] === FREE) this.assignLabel(w, INNER, p ^ 1)
          else if (label[inBlossom[w]!] === OUTER) {
            const base = this.scanBlossom(v, w)
            if (base < 0) {
              this.augmentMatching(k)
              return true
            }
            this.addBlossom(base, k)
          } else if (label[w] === FREE) {
            label[w] = INNER
            this.labelEnd[w] = p ^ 1
          }
        } else if (label[inBlossom[w]!] === OUTER) {
          const b = inBlossom[v]!
          if (bestEdge[b] === -1 || slack < this.slack(bestEdge[b]!)) bestEdge[b] = k
        } else if (label[w] === FREE) {
          if (bestEdge[w] === -1 || slack < this.slack(bestEdge[w]!)) bestEdge[w] = k
        }
      }
    }
    return false
  }

  /** Moves the duals until something becomes tight; false if nothing can. */
  private adjustDuals(): boolean {
    const { n, y, label, bestEdge, parent, inBlossom, base } = this
    let delta = Number.POSITIVE_INFINITY
    let edge = -1
    let expanding = -1
    for (let v = 0; v < n; v++) {
      if (label[inBlossom[v]!] !== FREE || bestEdge[v] === -1) continue
      const d = this.slack(bestEdge[v]!)
      if (d < delta) {
        delta = d
        edge = bestEdge[v]!
      }
    }
    for (let b = 0; b < 2 * n; b++) {
      if (parent[b] !== -1 || base[b] === -1) continue
      if (label[b] === OUTER && bestEdge[b] !== -1) {
        const d = this.slack(bestEdge[b]!) / 2
        if (d < delta) {
          delta = d
          edge = bestEdge[b]!
        }
      } else if (b >= n && label[b] === INNER && y[b]! < delta) {
        delta = y[b]!
        expanding = b
        edge = -1
      }
    }
    if (!Number.isFinite(delta)) return false
    for (let v = 0; v < n; v++) {
      if (label[inBlossom[v]!] === OUTER) y[v] = y[v]! + delta
      else if (label[inBlossom[v]!] === INNER) y[v] = y[v]! - delta
    }
    for (let b = n; b < 2 * n; b++) {
      if (base[b] === -1 || parent[b] !== -1) continue
      if (label[b] === OUTER) y[b] = y[b]! + delta
      else if (label[b] === INNER) y[b] = y[b]! - delta
    }
    if (edge === -1) this.expandBlossom(expanding, false)
    else {
      this.tight[edge] = 1
      const i = this.vertexAt[2 * edge]!
      this.queue.push(label[inBlossom[i]!] === FREE ? this.vertexAt[2 * edge + 1]! : i)
    }
    return true
  }

  /** One stage: one more pair. False if the matching cannot grow. */
  private stage(): boolean {
    const { n } = this
    this.label.fill(FREE)
    this.bestEdge.fill(-1)
    this.bestEdges.fill(undefined)
    this.tight.fill(0)
    this.queue.length = 0
    for (let v = 0; v < n; v++)
      if (this.mate[v] === -1 && this.label[this.inBlossom[v]!] === FREE) this.assignLabel(v, OUTER, -1)
    while (!this.grow()) if (!this.adjustDuals()) return false
    for (let b = n; b < 2 * n; b++)
      if (this.parent[b] === -1 && this.base[b]! >= 0 && this.label[b] === OUTER && this.y[b] === 0)
        this.expandBlossom(b, true)
    return true
  }

  solve(): boolean {
    this.warmStart()
    let free = 0
    for (let v = 0; v < this.n; v++) if (this.mate[v] === -1) free++
    if (free % 2 === 1) return false
    for (; free > 0; free -= 2) if (!this.stage()) return false
    return true
  }

  partners(): Int32Array {
    return this.mate.map((p) => this.vertexAt[p]!)
  }

  /** Twice the blossom duals that cover both a and b. */
  cover(a: number, b: number): number {
    const above = new Set<number>()
    for (let x = this.parent[a]!; x !== -1; x = this.parent[x]!) above.add(x)
    let sum = 0
    for (let x = this.parent[b]!; x !== -1; x = this.parent[x]!) if (above.has(x)) sum += 2 * this.y[x]!
    return sum
  }
}

/**
 * A perfect matching of least cost in a general graph, exact in integers.
 *
 * @param problem  costs are integers, 0 or more; parallel edges are allowed, loops are ignored
 * @returns undefined if there is no perfect matching
 * @source Edmonds 1965; the O(n^3) primal-dual method with a search from all free vertices: Galil, "Efficient algorithms
 *   for finding maximum matching in graphs", ACM Computing Surveys 18 (1986)
 */
export function minimumMatching(problem: MatchingProblem): Matching | undefined {
  if (problem.vertexCount % 2 === 1) return undefined
  const search = new BlossomSearch(problem)
  if (!search.solve()) return undefined
  const partner = search.partners()
  let cost = 0
  for (let k = 0; k < problem.u.length; k++)
    if (search.mate[problem.u[k]!]! >> 1 === k) cost += problem.cost[k]!
  const reducedCost = (a: number, b: number, c: number) =>
    4 * c - search.y[a]! - search.y[b]! + search.cover(a, b)
  return { partner, cost, reducedCost, dual: search.y.subarray(0, problem.vertexCount) }
}
