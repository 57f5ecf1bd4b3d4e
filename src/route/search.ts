import { type Candidate, completeTree, linkCandidates } from './links.ts'
import { seededRandom } from './random.ts'
import type { Link, Solution, Task } from './task.ts'

/** How long to look: iterations are counted, never timed, so that the result does not depend on the machine. */
export interface Effort {
  readonly iterations: number
  readonly seed: number
}

/** A tree of links and the solution that follows from it. */
export interface Tree {
  readonly links: readonly Link[]
  readonly solution: Solution
}

/** Starting trees: by length, by length less matching work, and from the pairs of the bare T-join. */
function startingTrees(task: Task, candidates: readonly Candidate[]): Link[][] {
  const byLength = [...candidates].sort(
    (x, y) => task.metric.distance(x.a, x.b) - task.metric.distance(y.a, y.b),
  )
  const pairs = (task.join([])?.pairs ?? [])
    .map(([a, b]) => ({ a, b }))
    .filter(({ a, b }) => task.component[a] !== -1 && task.component[b] !== -1)
  return [
    completeTree(task, [], byLength),
    completeTree(task, [], candidates),
    completeTree(task, pairs, candidates),
  ]
}

/**
 * How often a link is left out: paths that cross away from the pieces connect without being a tree of links.
 */
const BARE_SHARE = 0.25

/** The same tree with one link, or two, taken out and the rest rejoined at random, better links more often. */
function neighbour(
  task: Task,
  links: readonly Link[],
  from: { candidates: readonly Candidate[]; random: () => number },
): Link[] {
  const { candidates, random } = from
  const drop = random() < 0.3 && links.length > 1 ? 2 : 1
  const kept = [...links]
  for (let i = 0; i < drop; i++) kept.splice(Math.floor(random() * kept.length), 1)
  const shaken = candidates
    .map((link) => ({ link, key: (link.score + 1) * (0.5 + random()) }))
    .sort((x, y) => x.key - y.key)
    .map((x) => x.link)
  const tree = completeTree(task, kept, shaken)
  if (random() < BARE_SHARE) tree.splice(Math.floor(random() * tree.length), 1)
  return tree
}

const better = (a: Tree | undefined, b: Tree | undefined): Tree | undefined =>
  !a ? b : b && b.solution.cost < a.solution.cost ? b : a

function attempt(task: Task, links: readonly Link[]): Tree | undefined {
  const solution = task.evaluate(links)
  return solution && { links, solution }
}

/**
 * A cheap solution of a task whose pieces need joining: local search over trees of links, each followed by a least
 * T-join.
 *
 * @returns undefined if the task has no solution
 * @source Frederickson, J. ACM 26 (1979) for the first tree; the search exchanges one or two links
 */
export function searchLinks(task: Task, effort: Effort): Tree | undefined {
  const candidates = linkCandidates(task)
  let current: Tree | undefined
  for (const links of startingTrees(task, candidates)) current = better(current, attempt(task, links))
  if (!current) return undefined
  let best = current
  const random = seededRandom(effort.seed)
  for (let i = 0; i < effort.iterations; i++) {
    const heat = 0.03 * (1 - i / effort.iterations)
    const next = attempt(task, neighbour(task, current.links, { candidates, random }))
    if (!next) continue
    const limit = current.solution.cost + heat * random() * (best.solution.cost + 1)
    if (next.solution.cost <= limit) current = next
    if (next.solution.cost < best.solution.cost) best = next
  }
  return best
}
