import type { Link, Task } from './task.ts'
import { UnionFind } from './union-find.ts'

/** A link that could join two components. */
export interface Candidate extends Link {
  readonly from: number
  readonly to: number
  /** Its length, made smaller for each odd end: such a link does matching work as well. */
  readonly score: number
}

const PER_PAIR = 5
const NEAR = 8
const ODD_SHARE = 0.25

function vertexLists(task: Task): number[][] {
  const lists: number[][] = Array.from({ length: task.componentCount }, () => [])
  task.component.forEach((c, x) => {
    if (c !== -1) lists[c]!.push(x)
  })
  return lists
}

/** The best few links between two components. */
function bestBetween(
  task: Task,
  from: readonly number[],
  to: readonly number[],
  odd: Uint8Array,
): Candidate[] {
  const best: Candidate[] = []
  for (const a of from) {
    const { distance } = task.metric.row(a)
    for (const b of to) {
      const d = distance[b]!
      if (!Number.isFinite(d)) continue
      const score = d * (1 - ODD_SHARE * (odd[a]! + odd[b]!))
      if (best.length === PER_PAIR && score >= best[PER_PAIR - 1]!.score) continue
      let i = best.length
      while (i > 0 && best[i - 1]!.score > score) i--
      best.splice(i, 0, { a, b, score, from: task.component[a]!, to: task.component[b]! })
      if (best.length > PER_PAIR) best.pop()
    }
  }
  return best
}

/**
 * Links worth trying: for each component its nearest few others, for each such pair the best few ends, and a tree of
 * pairs so that everything can be joined.
 */
export function linkCandidates(task: Task): Candidate[] {
  const k = task.componentCount
  const lists = vertexLists(task)
  const odd = new Uint8Array(task.network.vertexCount)
  for (const x of task.terminals([])) odd[x] = 1
  const pairs = nearPairs(task, lists)
  const all: Candidate[] = []
  for (const [i, j] of pairs) all.push(...bestBetween(task, lists[i]!, lists[j]!, odd))
  return k > 1 ? all.sort((x, y) => x.score - y.score || x.a - y.a || x.b - y.b) : []
}

/** The pairs of components that are near each other, plus those of a spanning tree. */
function nearPairs(task: Task, lists: readonly number[][]): [number, number][] {
  const k = lists.length
  const gaps: [number, number, number][] = []
  for (let i = 0; i < k; i++) {
    const to = new Float64Array(k).fill(Number.POSITIVE_INFINITY)
    for (const a of lists[i]!) {
      const { distance } = task.metric.row(a)
      for (let x = 0; x < distance.length; x++) {
        const c = task.component[x]!
        if (c > i && distance[x]! < to[c]!) to[c] = distance[x]!
      }
    }
    for (let j = i + 1; j < k; j++) if (Number.isFinite(to[j]!)) gaps.push([to[j]!, i, j])
  }
  gaps.sort((x, y) => x[0] - y[0] || x[1] - y[1] || x[2] - y[2])
  const sets = new UnionFind(k)
  const taken = new Int32Array(k)
  const pairs: [number, number][] = []
  for (const [, i, j] of gaps) {
    const joins = sets.union(i, j)
    if (!joins && taken[i]! >= NEAR && taken[j]! >= NEAR) continue
    taken[i]!++
    taken[j]!++
    pairs.push([i, j])
  }
  return pairs
}

/** Completes `links` to a spanning tree of the components with candidates in the order given (Kruskal). */
export function completeTree(task: Task, links: readonly Link[], candidates: readonly Candidate[]): Link[] {
  const sets = new UnionFind(task.componentCount)
  const tree: Link[] = []
  const take = (link: Link) => {
    if (sets.union(task.component[link.a]!, task.component[link.b]!)) tree.push(link)
  }
  links.forEach(take)
  candidates.forEach(take)
  return tree
}
