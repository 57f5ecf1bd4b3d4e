import { FREE, INNER, MatchingForest, OUTER } from './matching-forest.ts'

/** Shrinks odd cycles of tight edges to blossoms, turns blossoms, and expands them again. */
export class Blossoms extends MatchingForest {
  protected addBlossom(base: number, k: number): void {
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

  protected expandBlossom(b: number, endStage: boolean): void {
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
  protected relabelChildren(b: number): void {
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
  protected augmentBlossom(b: number, v: number): void {
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
}
