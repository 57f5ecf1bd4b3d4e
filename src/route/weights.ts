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
