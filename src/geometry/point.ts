/** A place in the plane: x to the right, y down, mm. */
export type Point = readonly [x: number, y: number]

/** Two points closer than this are the same point, mm. Far below a thread's thickness, far above rounding. */
export const TOLERANCE = 1e-6

export const add = (a: Point, b: Point): Point => [a[0] + b[0], a[1] + b[1]]
export const subtract = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1]]
export const scale = (a: Point, k: number): Point => [a[0] * k, a[1] * k]
export const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1]
/** The z component of the cross product: positive when `b` lies clockwise of `a` on the screen (y down). */
export const cross = (a: Point, b: Point): number => a[0] * b[1] - a[1] * b[0]
// Math.sqrt: several times faster than Math.hypot, and no length here comes near overflow.
export const norm = (a: Point): number => Math.sqrt(a[0] * a[0] + a[1] * a[1])
export const distance = (a: Point, b: Point): number => {
  const dx = a[0] - b[0]
  const dy = a[1] - b[1]
  return Math.sqrt(dx * dx + dy * dy)
}
export const lerp = (a: Point, b: Point, t: number): Point => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
]
export const polar = (centre: Point, radius: number, angle: number): Point => [
  centre[0] + radius * Math.cos(angle),
  centre[1] + radius * Math.sin(angle),
]
export const isSamePoint = (a: Point, b: Point, tolerance = TOLERANCE): boolean => distance(a, b) <= tolerance

/** The unit vector along `a`, or [0, 0] for the zero vector. */
export function unit(a: Point): Point {
  const n = norm(a)
  return n > 0 ? [a[0] / n, a[1] / n] : [0, 0]
}

/** The distance from `p` to the line segment from `a` to `b`, mm. */
export function distanceToLine(p: Point, a: Point, b: Point): number {
  const ab = subtract(b, a)
  const squared = dot(ab, ab)
  const t = squared > 0 ? Math.min(1, Math.max(0, dot(subtract(p, a), ab) / squared)) : 0
  return distance(p, lerp(a, b, t))
}

/** The mean of `points`: the middle of a symmetrical shape's corners. */
export function meanOf(points: readonly Point[]): Point {
  const mean = (k: 0 | 1) => points.reduce((sum, point) => sum + point[k], 0) / points.length
  return [mean(0), mean(1)]
}
