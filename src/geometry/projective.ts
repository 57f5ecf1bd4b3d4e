import type { Point } from './point.ts'

/** Four corners, in order round a quadrilateral. */
export type Four = readonly [Point, Point, Point, Point]

/**
 * A projective map of the plane, row by row: (x, y) goes to ((a x + b y + c) / w, (d x + e y + f) / w) with
 * w = g x + h y + 1.
 */
export type Projective = readonly [
  a: number,
  b: number,
  c: number,
  d: number,
  e: number,
  f: number,
  g: number,
  h: number,
]

/**
 * The projective map that takes the unit square's corners (0, 0), (1, 0), (1, 1), (0, 1) to those of a quadrilateral.
 *
 * @returns undefined if three of the corners lie on a line
 * @source P. Heckbert, "Fundamentals of Texture Mapping and Image Warping", 1989, section 2.2.3
 */
export function squareToQuadrilateral([p, q, r, s]: Four): Projective | undefined {
  const [sx, sy] = [p[0] - q[0] + r[0] - s[0], p[1] - q[1] + r[1] - s[1]]
  const [dx1, dy1] = [q[0] - r[0], q[1] - r[1]]
  const [dx2, dy2] = [s[0] - r[0], s[1] - r[1]]
  const determinant = dx1 * dy2 - dx2 * dy1
  if (Math.abs(determinant) < 1e-9) return undefined
  const g = (sx * dy2 - dx2 * sy) / determinant
  const h = (dx1 * sy - sx * dy1) / determinant
  return [
    q[0] - p[0] + g * q[0],
    s[0] - p[0] + h * s[0],
    p[0],
    q[1] - p[1] + g * q[1],
    s[1] - p[1] + h * s[1],
    p[1],
    g,
    h,
  ]
}

/** The map that undoes `m`, up to the scale that makes its last entry 1. */
export function invertProjective([a, b, c, d, e, f, g, h]: Projective): Projective {
  const last = a * e - b * d
  return [
    (e - f * h) / last,
    (c * h - b) / last,
    (b * f - c * e) / last,
    (f * g - d) / last,
    (a - c * g) / last,
    (c * d - a * f) / last,
    (d * h - e * g) / last,
    (b * g - a * h) / last,
  ]
}

/** First `inner`, then `outer`. */
export function composeProjective(outer: Projective, inner: Projective): Projective {
  const [m, n] = [
    [...outer, 1],
    [...inner, 1],
  ] as [number[], number[]]
  const product = Array.from({ length: 9 }, (_, i) => {
    const [row, column] = [Math.floor(i / 3), i % 3]
    return [0, 1, 2].reduce((sum, k) => sum + m[3 * row + k]! * n[3 * k + column]!, 0)
  })
  return product.slice(0, 8).map((value) => value / product[8]!) as unknown as Projective
}

/** Where a point goes. */
export function applyProjective([a, b, c, d, e, f, g, h]: Projective, [x, y]: Point): Point {
  const w = g * x + h * y + 1
  return [(a * x + b * y + c) / w, (d * x + e * y + f) / w]
}
