import { type Effort, searchLinks } from './search.ts'
import type { Solution, Task } from './task.ts'

/** A solution and what is proved about it. */
export interface Solved extends Solution {
  /** No solution costs less than this. */
  readonly bound: number
}

/**
 * Solves one rural postman task: parity first, which is the optimum if everything then hangs together; otherwise links.
 *
 * @returns undefined if the task has no solution: some piece or end cannot be reached
 */
export function solveTask(task: Task, effort: Effort): Solved | undefined {
  const join = task.join([])
  if (!join) return undefined
  const direct = task.evaluate([])
  if (direct) return { ...direct, bound: direct.cost }
  const found = searchLinks(task, effort)
  return found && { ...found.solution, bound: join.cost }
}
