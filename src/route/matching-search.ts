import { Blossoms } from './blossoms.ts'
import { FREE, INNER, OUTER } from './matching-forest.ts'

/** The primal-dual search: trees grow over tight edges from all free vertices, and duals move where none is left. */
export class MatchingSearch extends Blossoms {
  /** Starts from duals that already touch many edges, and pairs greedily along those. */
  private warmStart(): void {
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
