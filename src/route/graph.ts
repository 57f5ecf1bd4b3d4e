import { PlanError, type Problem } from '../error.ts'
import type { Point } from '../geometry/point.ts'

/** A piece of the line, or a stretch of seam that may be travelled. */
export interface RouteEdge {
  readonly u: number
  readonly v: number
  /** mm */
  readonly length: number
  /** True for a piece that must be stitched, false for a seam that may be travelled. */
  readonly required: boolean
  /**
   * Price of one extra pass per mm: the travel price of a seam, the overlap price of a required piece. Left out: the
   * weights' `travel` or `overlap`.
   */
  readonly price?: number
  /** A label of the caller's; the planner takes areas from the plans. */
  readonly area?: number
  /** The direction in which the edge leaves `u`, into the edge. Left out: towards `v`, if positions are known. */
  readonly directionU?: Point
  /** The direction in which the edge leaves `v`, into the edge (against the walk from u to v). */
  readonly directionV?: Point
  /**
   * Edges with the same number run on from each other, as the pieces of one filler do. Where there is a choice, the walk
   * follows its strand before it turns into another.
   */
  readonly strand?: number
}

/** What the planner knows: vertices by number, edges, and where the vertices lie (mm), if anybody knows. */
export interface RouteGraph {
  readonly vertexCount: number
  readonly edges: readonly RouteEdge[]
  readonly positions?: readonly Point[]
}

/** One pass over an edge, in walk order. */
export interface Step {
  readonly edge: number
  /** True from u to v. */
  readonly forward: boolean
  /** Index of the area in the plan, in the order of work, during which it is made. */
  readonly area: number
}

/** One thread start: a continuous walk. */
export interface Walk {
  readonly start: number
  readonly end: number
  readonly steps: readonly Step[]
}

/** The price per mm of an extra pass when the edge names none. */
export interface DefaultPrices {
  readonly travel: number
  readonly overlap: number
}

/** The price of one extra pass over `edge` per mm. */
export const priceOf = (edge: RouteEdge, prices: DefaultPrices): number =>
  edge.price ?? (edge.required ? prices.overlap : prices.travel)

const isVertex = (v: number, graph: RouteGraph): boolean =>
  Number.isInteger(v) && v >= 0 && v < graph.vertexCount

function edgeProblem(edge: RouteEdge, at: string, graph: RouteGraph): Problem | undefined {
  for (const v of [edge.u, edge.v])
    if (!isVertex(v, graph))
      return {
        code: 'route/unknown-vertex',
        at,
        message: `vertex ${v} is not one of 0 to ${graph.vertexCount - 1}`,
      }
  if (!(edge.length >= 0 && Number.isFinite(edge.length)))
    return { code: 'route/bad-length', at, message: `length ${edge.length} mm; must be 0 or more` }
  if (edge.price !== undefined && !(edge.price >= 0 && Number.isFinite(edge.price)))
    return { code: 'route/bad-price', at, message: `price ${edge.price} per mm; must be 0 or more` }
  return undefined
}

/**
 * Checks that a graph can be planned.
 *
 * @throws PlanError `route/unknown-vertex`, `route/bad-length`, `route/bad-price`: every edge that is wrong
 */
export function checkGraph(graph: RouteGraph): void {
  const problems = graph.edges.flatMap((edge, i) => edgeProblem(edge, `edges[${i}]`, graph) ?? [])
  if (problems.length > 0) throw new PlanError(problems)
}

/**
 * Checks that a vertex asked for exists.
 *
 * @throws PlanError `route/unknown-vertex`
 */
export function checkVertex(v: number | undefined, at: string, graph: RouteGraph): void {
  if (v !== undefined && !isVertex(v, graph))
    throw new PlanError({
      code: 'route/unknown-vertex',
      at,
      message: `vertex ${v} is not one of 0 to ${graph.vertexCount - 1}`,
    })
}
