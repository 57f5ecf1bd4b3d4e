import { add, distance, lerp, meanOf, norm, type Point, scale, subtract, unit } from '../geometry/point.ts'

/** What a tape measure says of a four-sided outline, mm. */
export interface Measures {
  /** Left to right: along the top edge, through the middle, along the bottom edge. */
  readonly across: readonly [number, number, number]
  /** Top to bottom: along the left edge, through the middle, along the right edge. */
  readonly down: readonly [number, number, number]
  /** Top left to bottom right, top right to bottom left. Left out: taken for square. */
  readonly diagonals?: readonly [number, number]
}

/** Corners clockwise from the top left. */
export type Quadrilateral = readonly [Point, Point, Point, Point]

/** Each measure as the weights of the four corners whose weighted sum is the vector measured. */
const ACROSS: readonly (readonly number[])[] = [
  [-1, 1, 0, 0],
  [-0.5, 0.5, 0.5, -0.5],
  [0, 0, 1, -1],
]
const DOWN: readonly (readonly number[])[] = [
  [-1, 0, 0, 1],
  [-0.5, -0.5, 0.5, 0.5],
  [0, -1, 1, 0],
]
const DIAGONALS: readonly (readonly number[])[] = [
  [-1, 0, 1, 0],
  [0, -1, 0, 1],
]

interface Measure {
  readonly weights: readonly number[]
  readonly length: number
}

const measuresOf = ({ across, down, diagonals }: Measures): Measure[] => [
  ...ACROSS.map((weights, i) => ({ weights, length: across[i]! })),
  ...DOWN.map((weights, i) => ({ weights, length: down[i]! })),
  ...(diagonals ? DIAGONALS.map((weights, i) => ({ weights, length: diagonals[i]! })) : []),
]

/** The measures of a four-sided outline. */
export function measureQuadrilateral(corners: readonly Point[]): Required<Measures> {
  const [a, b, c, d] = corners as Quadrilateral
  return {
    across: [distance(a, b), distance(lerp(a, d, 0.5), lerp(b, c, 0.5)), distance(d, c)],
    down: [distance(a, d), distance(lerp(a, b, 0.5), lerp(d, c, 0.5)), distance(b, c)],
    diagonals: [distance(a, c), distance(b, d)],
  }
}

/** Enough damping to hold still what no measure sees: where the outline lies and how it is turned. */
const DAMPING = 1e-7
const MOST_STEPS = 60

/**
 * The four-sided outline that comes closest to all measures, by least squares: they are more than its shape needs. It
 * lies about the origin.
 *
 * @source Gauss-Newton with Levenberg's damping (Quarterly of Applied Mathematics 2, 1944)
 */
export function fitQuadrilateral(measures: Measures): Quadrilateral {
  const list = measuresOf(measures)
  const mean = (values: readonly number[]) => values.reduce((sum, x) => sum + x, 0) / values.length
  const [x, y] = [mean(measures.across) / 2, mean(measures.down) / 2]
  let corners: Point[] = [
    [-x, -y],
    [x, -y],
    [x, y],
    [-x, y],
  ]
  for (let i = 0; i < MOST_STEPS; i++) {
    const step = gaussNewtonStep(list, corners)
    corners = corners.map((p, k) => add(p, [step[2 * k]!, step[2 * k + 1]!]))
    if (Math.max(...step.map(Math.abs)) < 1e-10) break
  }
  return corners as unknown as Quadrilateral
}

/** What a measure misses by, and how it changes as the corners move. */
interface Miss {
  readonly row: readonly number[]
  readonly miss: number
}

function linearised(list: readonly Measure[], corners: readonly Point[]): Miss[] {
  const now = (weights: readonly number[]) => {
    const vector = weights.reduce((sum: Point, w, k) => add(sum, scale(corners[k]!, w)), [0, 0])
    const direction = unit(vector)
    return { length: norm(vector), row: weights.flatMap((w) => [w * direction[0], w * direction[1]]) }
  }
  const misses = list.map(({ weights, length }): Miss => {
    const { row, length: found } = now(weights)
    return { row, miss: length - found }
  })
  if (list.length > ACROSS.length + DOWN.length) return misses
  // Nothing else keeps the outline from leaning: equal diagonals do.
  const [a, b] = [now(DIAGONALS[0]!), now(DIAGONALS[1]!)]
  return [...misses, { row: a.row.map((x, i) => x - b.row[i]!), miss: b.length - a.length }]
}

function gaussNewtonStep(list: readonly Measure[], corners: readonly Point[]): number[] {
  const normal = Array.from({ length: 8 }, (_, i) =>
    Array.from({ length: 8 }, (_, j) => (i === j ? DAMPING : 0)),
  )
  const right = new Array<number>(8).fill(0)
  for (const { row, miss } of linearised(list, corners)) {
    for (let i = 0; i < 8; i++) {
      right[i]! += row[i]! * miss
      for (let j = 0; j < 8; j++) normal[i]![j]! += row[i]! * row[j]!
    }
  }
  return solveSymmetric(normal, right)
}

/** Solves a positive definite system by elimination; changes its arguments. */
function solveSymmetric(matrix: number[][], right: number[]): number[] {
  const n = right.length
  for (let k = 0; k < n; k++) {
    for (let i = k + 1; i < n; i++) {
      const factor = matrix[i]![k]! / matrix[k]![k]!
      for (let j = k; j < n; j++) matrix[i]![j]! -= factor * matrix[k]![j]!
      right[i]! -= factor * right[k]!
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) right[k]! -= matrix[k]![j]! * right[j]!
    right[k]! /= matrix[k]![k]!
  }
  return right
}

/**
 * Moves and turns an outline, without changing its shape, to where its corners lie closest to those of another.
 *
 * @source orthogonal Procrustes problem in the plane: angle = atan2(sum of cross products, sum of dot products) about
 *   the means
 */
export function placeOnto(outline: readonly Point[], target: readonly Point[]): Point[] {
  const [from, to] = [meanOf(outline), meanOf(target)]
  let [sine, cosine] = [0, 0]
  outline.forEach((p, i) => {
    const [a, b] = [subtract(p, from), subtract(target[i]!, to)]
    sine += a[0] * b[1] - a[1] * b[0]
    cosine += a[0] * b[0] + a[1] * b[1]
  })
  const size = Math.hypot(sine, cosine)
  const [s, c] = [sine / size, cosine / size]
  return outline.map((p) => {
    const [x, y] = subtract(p, from)
    return add(to, [c * x - s * y, s * x + c * y])
  })
}
