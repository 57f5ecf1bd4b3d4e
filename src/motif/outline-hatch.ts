import { distance, lerp, type Point } from '../geometry/point.ts'
import { type Stroke, strokeThrough } from '../geometry/stroke.ts'
import { offsetOutline } from '../quilt/outline.ts'

/** How far inside the outline the lines turn, as a part of the distance between them. */
const TURN = 0.12

/**
 * Two sets of parallel lines across a regular outline with an even number of sides, parallel to the sides beside the top
 * one: each set is one stroke, there and back from a side to the opposite one.
 *
 * @param outline  regular, corners clockwise on the screen from the left end of the top side, mm
 * @param spacing  distance between lines, mm; made to fit whole
 */
export function outlineHatch(outline: readonly Point[], spacing: number): Stroke[] {
  const half = outline.length / 2
  // The first set ends where the second begins, or as near as can be.
  return [sweep(outline, { from: half + 1, spacing }), sweep(outline, { from: half - 1, spacing })]
}

/** Lines from one side of the outline to the opposite one. */
function sweep(
  outline: readonly Point[],
  { from, spacing }: { readonly from: number; readonly spacing: number },
): Stroke {
  const count = outline.length
  const at = (corners: readonly Point[], i: number) => corners[i % count]!
  const opposite = from + count / 2
  const across = distance(
    lerp(at(outline, from), at(outline, from + 1), 0.5),
    lerp(at(outline, opposite), at(outline, opposite + 1), 0.5),
  )
  // An odd number leads across, so that the first set of a hexagon ends at the corner where the second begins.
  const lines = 2 * Math.max(1, Math.round((across / spacing - 1) / 2)) + 1
  const inner = offsetOutline(outline, -TURN * Math.min(spacing, across / lines))
  // The two ways round the outline from the one side to the other.
  const [left, right] = [0, 1].map((way) => {
    const steps = Array.from({ length: count / 2 }, (_, i) => (way === 0 ? from - i + count : from + 1 + i))
    return steps.map((i) => at(inner, i))
  }) as [Point[], Point[]]
  const points = [at(outline, from)]
  for (let line = 1; line < lines; line++) {
    const level = { from: at(outline, from), beside: at(outline, from + 1), part: line / lines, across }
    const ends = [crossingAt(left, level), crossingAt(right, level)] as const
    points.push(...(line % 2 === 1 ? ends : [ends[1], ends[0]]))
  }
  return strokeThrough([...points, at(outline, opposite + 1)])
}

interface Level {
  readonly from: Point
  readonly beside: Point
  readonly part: number
  readonly across: number
}

/** Where a chain of points crosses the line that lies at a part of the way across. */
function crossingAt(chain: readonly Point[], { from, beside, part, across }: Level): Point {
  const length = distance(from, beside)
  const inward: Point = [-(beside[1] - from[1]) / length, (beside[0] - from[0]) / length]
  const height = (p: Point) => (p[0] - from[0]) * inward[0] + (p[1] - from[1]) * inward[1] - part * across
  for (let i = 1; i < chain.length; i++) {
    const [a, b] = [height(chain[i - 1]!), height(chain[i]!)]
    if (a < 0 !== b < 0) return lerp(chain[i - 1]!, chain[i]!, a / (a - b))
  }
  return height(chain[0]!) < 0 ? chain.at(-1)! : chain[0]!
}
