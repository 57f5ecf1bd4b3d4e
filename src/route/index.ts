export { checkGraph, type RouteEdge, type RouteGraph, type Step, type Walk } from './graph.ts'
export { type Matching, type MatchingProblem, minimumMatching } from './matching.ts'
export { type PostmanOptions, type PostmanResult, solvePostman } from './postman.ts'
export { ROUTE_WEIGHTS, type RouteWeights } from './weights.ts'
