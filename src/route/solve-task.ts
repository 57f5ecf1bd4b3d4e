import { searchExactly } from './exact.ts'
import { type Effort, searchLinks } from './search.ts'
import type { Solution, Task } from './task.ts'

/** Nodes of the exact search per round of local search. */
const NODES_PER_ROUND = 5
/** The share of the rounds that goes before the exact search, to give it something to beat. */
const FIRST_SHARE = 0.1

/** Small tasks get more rounds for the same work, large ones fewer; this is the size that gets what was asked for. */
const USUAL_SIZE = 70_000
const MOST_ROUNDS = 16
const FEWEST_ROUNDS = 0.25

/** Links that join pieces bring ends of their own: so many a piece. */
const ENDS_PER_PIECE = 1.5

/** The rounds for a task: work per round grows with terminals x (terminals + edges). */
function roundsFor(task: Task, { iterations }: Effort): number {
  const terminals = Math.max(task.terminals([]).length, ENDS_PER_PIECE * task.componentCount)
  const size = 1 + terminals * (terminals + task.network.edgeCount)
  return Math.ceil(iterations * Math.min(MOST_ROUNDS, Math.max(FEWEST_ROUNDS, USUAL_SIZE / size)))
}

/** A solution and what is proved about it. */
export interface Solved extends Solution {
  /** No solution costs less than this. */
  readonly bound: number
}

/**
 * Solves one rural postman task. Parity first, which is the optimum if everything then hangs together. Otherwise a short
 * local search over links, the exact search with its result to beat, and where that gives up, a longer local search.
 *
 * @returns undefined if the task has no solution: some piece or end cannot be reached
 */
export function solveTask(task: Task, effort: Effort): Solved | undefined {
  const join = task.join([])
  if (!join) return undefined
  const direct = task.evaluate([])
  if (direct) return { ...direct, bound: direct.cost }
  const first = searchLinks(task, {
    ...effort,
    iterations: Math.ceil(effort.iterations * FIRST_SHARE),
  })?.solution
  if (!first) return undefined
  const exact = searchExactly(task, first.cost, NODES_PER_ROUND * effort.iterations)
  const best = exact.solution ?? first
  if (exact.proved) return { ...best, bound: best.cost }
  const second = searchLinks(task, { seed: effort.seed + 1, iterations: roundsFor(task, effort) })?.solution
  return { ...(second && second.cost < best.cost ? second : best), bound: join.cost }
}
