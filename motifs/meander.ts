import { lerp, type Point } from '../src/geometry/point.ts'
import { cubic } from '../src/geometry/segment.ts'
import type { Stroke } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawnFree, type FreeStrip, freeStrip, LedLine } from '../src/motif/free-end.ts'
import { seededRandom } from '../src/motif/random.ts'
import { type GridNode, randomTree } from '../src/motif/random-tree.ts'
import { inches } from '../src/units.ts'

/** How much of the way to its corners a curve is drawn: 1 would give corners almost square. */
const ROUND = 0.66

export default defineMotif({
  title: 'Meander',
  source: 'the outline of a random tree that fills the strip, rounded; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Between lines',
      default: { widths: 0.15 },
      min: inches(0.15),
      max: inches(1.5),
    },
    unrest: { kind: 'ratio', label: 'Unrest', default: 0.6, min: 0, max: 1 },
  },
  suits: { min: inches(1.5), max: inches(8) },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, { spacing }) => 2 * bounded(spacing, width),
  draw: (strip, { spacing, unrest }) =>
    drawnFree(strip, wander(freeStrip(strip), { spacing: bounded(spacing, strip.width), unrest })),
})

const bounded = (spacing: number, width: number): number =>
  Math.min(0.32 * width, Math.max(0.06 * width, spacing))

/** The rounded, jittered outline of the tree. */
function wander(strip: FreeStrip, { spacing, unrest }: { spacing: number; unrest: number }): Stroke {
  const { length, width, returns, seed } = strip
  const rows = Math.max(1, Math.round((width / spacing - 1) / 2))
  const columns = strip.repeats + (returns ? 0 : 1)
  const [dx, dy] = [length / (2 * strip.repeats + (returns ? 0 : 1)), width / (2 * rows + 1)]
  const sway = swayOf(seed + 1, unrest)
  const nodes = outline({ columns, rows, hasWall: !returns, seed })
  const most = [2 * columns - (returns ? 1 : 2), 2 * rows] as const
  const corners = softened(nodes.map((node) => sway(node, most)))
  return rounded(
    corners.map(([i, j]): Point => [(i + 0.5) * dx, (j + 0.5) * dy]),
    [length, returns ? 0 : width],
  )
}

/** Moves a corner, in half grid steps: along slow waves, and a little by chance; less so beside the strip's sides. */
function swayOf(seed: number, unrest: number): (node: Point, most: Point) => Point {
  const random = seededRandom(seed).next
  const [a, b, c, d] = [random, random, random, random].map((next) => 2 * Math.PI * next())
  const shake = () => 0.5 * unrest * (random() - 0.5)
  return ([i, j], [right, top]) => {
    const across = unrest * Math.min(1.1, 0.55 * Math.min(i, right - i))
    const along = unrest * Math.min(1.1, 0.55 * Math.min(j, top - j))
    const x = i + across * 0.5 * (Math.sin(1.05 * j + a!) + Math.sin(0.7 * i + b!)) + shake()
    const y = j + along * 0.5 * (Math.sin(1.05 * i + c!) + Math.sin(0.7 * j + d!)) + shake()
    return [Math.min(right + 0.25, Math.max(-0.25, x)), Math.min(top + 0.25, Math.max(-0.25, y))]
  }
}

/** Each point drawn a little towards its neighbours. */
const softened = (points: readonly Point[]): Point[] =>
  points.map((p, i) => {
    const [before, after] = [points[i - 1], points[i + 1]]
    return before && after ? lerp(p, lerp(before, after, 0.5), 0.3) : p
  })

/** One cubic from the middle of each side to the middle of the next, towards the corner between them. */
function rounded(corners: readonly Point[], end: Point): Stroke {
  const headingOf = (a: Point, b: Point) => Math.atan2(b[1] - a[1], b[0] - a[0])
  const line = new LedLine({ at: [0, 0], heading: 0 })
  for (let i = 1; i < corners.length; i++) {
    const [before, corner] = [corners[i - 1]!, corners[i]!]
    const middle = lerp(before, corner, 0.5)
    if (i === 1) line.to({ at: middle, heading: headingOf(before, corner) })
    else {
      const c1 = lerp(line.at, before, ROUND)
      line.along([cubic(c1, lerp(middle, before, ROUND), middle)], headingOf(before, corner))
    }
  }
  return line.to({ at: end, heading: 0 }).build()
}

/** The four directions, clockwise with rows upward. */
const WAYS = [
  [-1, 0],
  [0, 1],
  [1, 0],
  [0, -1],
] as const

/**
 * The corners passed by a walk along the upper left side of the ground and all that grows on it, in half grid steps: the
 * walk keeps the tree on its right and takes the first joint clockwise at every node.
 */
function outline(ground: { columns: number; rows: number; hasWall: boolean; seed: number }): Point[] {
  const { columns, rows, hasWall } = ground
  const tree = randomTree(ground)
  const goal: GridNode = { column: columns - 1, row: hasWall ? rows : 0 }
  const leaves = hasWall ? 1 : 2
  const corners: Point[] = []
  let [node, way]: [GridNode, number] = [{ column: 0, row: 0 }, 0]
  for (;;) {
    // The corner between this way and the next clockwise one.
    const [a, b] = [WAYS[way]!, WAYS[(way + 1) % 4]!]
    const [right, up] = [a[0] + b[0] > 0 ? 1 : 0, a[1] + b[1] > 0 ? 0 : -1]
    corners.push([2 * node.column + right, 2 * node.row + up])
    way = (way + 1) % 4
    if (node.column === goal.column && node.row === goal.row && way === leaves) return corners
    const next: GridNode = { column: node.column + WAYS[way]![0], row: node.row + WAYS[way]![1] }
    const isInside = next.column >= 0 && next.column < columns && next.row >= 0 && next.row <= rows
    if (isInside && tree.isJoined(node, next)) {
      node = next
      way = (way + 2) % 4
    }
  }
}
