import { PlanError, type Problem } from '../../src/error.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAN_CATALOG } from './plan-catalog.ts'

/** The problems for which a plan is refused. Fails if it is read. */
export function problemsOf(text: string): readonly Problem[] {
  try {
    readPlan(text, PLAN_CATALOG)
  } catch (error) {
    if (error instanceof PlanError) return error.problems
    throw error
  }
  throw new Error('the plan was read without a problem')
}

/** `4:11 plan/length bands[0].width`: where a problem stands, what it is and whose. */
export const placed = ({ position, code, at }: Problem): string =>
  `${position?.line}:${position?.column} ${code} ${at}`.trim()

/** A plan whose text marks the place of a problem with «: the text without the mark, and the place. */
export function unmark(marked: string): { readonly text: string; readonly place: string } {
  const before = marked.slice(0, marked.indexOf('«')).split('\n')
  return { text: marked.replace('«', ''), place: `${before.length}:${(before.at(-1) ?? '').length + 1}` }
}
