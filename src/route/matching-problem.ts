/** The edges of a matching problem: integer costs, 0 or more, below 2^48. */
export interface MatchingProblem {
  readonly vertexCount: number
  readonly u: Int32Array
  readonly v: Int32Array
  readonly cost: Float64Array
}

/** A perfect matching of least cost, with the proof that it is least. */
export interface Matching {
  /** The partner of every vertex. */
  readonly partner: Int32Array
  readonly cost: number
  /** The reduced cost that an edge between `a` and `b` of cost `cost` would have: negative = leaving it out was wrong. */
  readonly reducedCost: (a: number, b: number, cost: number) => number
  /** Twice the largest cost at which a left-out edge at `a` could still matter. */
  readonly dual: Float64Array
}
