import { PlanError } from '../error.ts'

/**
 * What the route should avoid, in order. The unit of every weight is one millimetre of first travel in a seam.
 */
export interface RouteWeights {
  /** One more thread start: two tails to bury. */
  readonly start: number
  /** One mm stitched over a line that is already there; for edges without a price of their own. */
  readonly overlap: number
  /** One more move of the quilt, from area to area. */
  readonly reposition: number
  /** How many times dearer than the first a second pass over the same seam is. */
  readonly travelAgain: number
  /** One mm of first travel in a seam; for edges without a price of their own. */
  readonly travel: number
}

/** Weights for a quilt where stops are worst: start >> overlap > reposition > travelling again > travel. */
export const ROUTE_WEIGHTS: RouteWeights = {
  start: 1e6,
  overlap: 8,
  reposition: 200,
  travelAgain: 2,
  travel: 1,
}

/** The least value of each weight: a second pass over a seam is never cheaper than the first. */
const LEAST: RouteWeights = { start: 0, overlap: 0, reposition: 0, travelAgain: 1, travel: 0 }

/**
 * The weights with defaults filled in.
 *
 * @throws PlanError `route/bad-weight`: every weight below what it may be, or not a number
 */
export function completeWeights(given: Partial<RouteWeights> = {}): RouteWeights {
  const weights = { ...ROUTE_WEIGHTS, ...given }
  const problems = (Object.keys(LEAST) as (keyof RouteWeights)[])
    .filter((name) => !(weights[name] >= LEAST[name] && Number.isFinite(weights[name])))
    .map((name) => ({
      code: 'route/bad-weight',
      at: `weights.${name}`,
      message: `weight ${weights[name]}; must be ${LEAST[name]} or more`,
    }))
  if (problems.length > 0) throw new PlanError(problems)
  return weights
}
