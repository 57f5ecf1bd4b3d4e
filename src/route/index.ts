export type { Area, AreaOrder } from './area-order.ts'
export { AREA_ITERATIONS, type AreaOptions, solveByAreas } from './areas.ts'
export type { AreaReport, RouteResult } from './assemble-route.ts'
export type {
  DefaultPrices,
  RouteEdge,
  RouteGraph,
  Step,
  Walk,
} from './graph.ts'
export { type LowerBound, lowerBound } from './lower-bound.ts'
export { minimumMatching } from './matching.ts'
export type { Matching, MatchingProblem } from './matching-problem.ts'
export { ITERATIONS, type PostmanOptions, type PostmanResult, solvePostman } from './postman.ts'
export { ROUTE_WEIGHTS, type RouteWeights } from './weights.ts'
