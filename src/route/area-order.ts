import type { Problem } from '../error.ts'
import type { RouteGraph } from './graph.ts'

/** An area: its required edges, and the seams within reach while it is worked (all of them, if left out). */
export interface Area {
  readonly required: readonly number[]
  readonly travel?: readonly number[]
}

/**
 * One way to divide and order the work: areas, each with the required edges that are stitched in it. The full form of
 * an area also says which seams can be travelled meanwhile.
 */
export type AreaOrder = readonly (readonly number[] | Area)[]

/** The full form of an area. */
export const asArea = (area: readonly number[] | Area): Area =>
  'required' in area ? area : { required: area }

/** What is wrong with a plan: edges that need no stitching, or that are not stitched exactly once. */
export function planProblems(graph: RouteGraph, plan: AreaOrder, at: string): Problem[] {
  const count = new Int32Array(graph.edges.length)
  const problems: Problem[] = []
  plan.forEach((area, a) => {
    for (const e of asArea(area).required) {
      if (graph.edges[e]?.required) count[e]!++
      else
        problems.push({
          code: 'route/not-required',
          at: `${at}[${a}]`,
          message: `edge ${e} is not a required edge`,
        })
    }
  })
  graph.edges.forEach((edge, e) => {
    if (edge.required && count[e] !== 1)
      problems.push({
        code: 'route/area-cover',
        at,
        message: `edge ${e} lies in ${count[e]} areas; must lie in one`,
      })
  })
  return problems
}
