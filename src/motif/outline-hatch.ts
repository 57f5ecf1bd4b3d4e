import { dot, lerp, type Point, subtract, unit } from '../geometry/point.ts'
import { type Stroke, strokeThrough } from '../geometry/stroke.ts'
import { offsetOutline } from '../quilt/outline.ts'

/** How far inside the outline the lines of each set turn, as a part of the distance between them: nowhere at the same place. */
const TURNS = [0.1, 0.26]

/**
 * Two sets of parallel lines across a regular outline with an even number of sides, each one stroke, there and back: parallel
 * to the sides beside the first one; in a square parallel to its diagonals.
 *
 * @param outline  regular, corners clockwise on the screen, mm
 * @param spacing  distance between lines, mm; made to fit whole
 */
export function outlineHatch(outline: readonly Point[], spacing: number): Stroke[] {
  const half = outline.length / 2
  // The first set ends where the second begins, or as near as can be.
  const sweeps =
    half === 2 ? [fromCorner(0), fromCorner(1)] : [fromSide(half + 1, half), fromSide(half - 1, half)]
  return sweeps.map((sweep, set) => sweepStroke(outline, sweep, { spacing, turn: TURNS[set]! }))
}

/** Where lines lead from and to, by corners, and what they are parallel to. */
interface Sweep {
  /** The corners at the left and the right of where it begins, and of where it ends; the same twice at a corner. */
  readonly begin: readonly [left: number, right: number]
  readonly end: readonly [left: number, right: number]
  readonly along: readonly [left: number, right: number]
}

const fromSide = (side: number, half: number): Sweep => ({
  begin: [side, side + 1],
  end: [side + half + 1, side + half],
  along: [side, side + 1],
})

const fromCorner = (corner: number): Sweep => ({
  begin: [corner, corner],
  end: [corner + 2, corner + 2],
  along: [corner + 3, corner + 1],
})

function sweepStroke(
  outline: readonly Point[],
  { begin, end, along }: Sweep,
  { spacing, turn }: { readonly spacing: number; readonly turn: number },
): Stroke {
  const at = (i: number) => outline[i % outline.length]!
  const across = heightOver(at(along[0]), at(along[1]), at(begin[0]))
  const most = across(at(end[0]))
  // An odd number leads across, so that the first set of a hexagon ends at the corner where the second begins.
  const lines = 2 * Math.max(1, Math.round((most / spacing - 1) / 2)) + 1
  const inner = offsetOutline(outline, (-turn * most) / lines)
  const left = chain(inner, { from: begin[0], to: end[0], step: -1 })
  const right = chain(inner, { from: begin[1], to: end[1], step: 1 })
  const points = [at(begin[0])]
  for (let line = 1; line < lines; line++) {
    const above = (p: Point) => across(p) - (most * line) / lines
    const ends = [crossingAt(left, above), crossingAt(right, above)] as const
    points.push(...(line % 2 === 1 ? ends : [ends[1], ends[0]]))
  }
  return strokeThrough([...points, at(end[0])])
}

/** How far inward a point lies from a place, square to a direction. */
function heightOver(a: Point, b: Point, from: Point): (p: Point) => number {
  const [x, y] = unit(subtract(b, a))
  return (p) => dot(subtract(p, from), [-y, x])
}

/** The corners of an outline from one to another, one way round. */
function chain(
  outline: readonly Point[],
  { from, to, step }: { from: number; to: number; step: 1 | -1 },
): Point[] {
  const count = outline.length
  const steps = ((((to - from) * step) % count) + count) % count
  return Array.from({ length: steps + 1 }, (_, i) => outline[(from + step * i + count) % count]!)
}

/** Where a chain of points rises above a line; at its nearer end where it does not. */
function crossingAt(points: readonly Point[], above: (p: Point) => number): Point {
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [above(points[i - 1]!), above(points[i]!)]
    if (a < 0 !== b < 0) return lerp(points[i - 1]!, points[i]!, a / (a - b))
  }
  return above(points[0]!) < 0 ? points.at(-1)! : points[0]!
}
