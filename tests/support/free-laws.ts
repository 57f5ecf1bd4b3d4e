import Flatbush from 'flatbush'
import { cross, distance, distanceToLine, type Point, subtract } from '../../src/geometry/point.ts'
import { directionAt } from '../../src/geometry/segment.ts'
import { eachSegment, type Stroke } from '../../src/geometry/stroke.ts'

/** The chords of a chain of points, findable by place. */
function index(points: readonly Point[], swell = 0): Flatbush {
  const tree = new Flatbush(points.length - 1)
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    tree.add(
      Math.min(a[0], b[0]) - swell,
      Math.min(a[1], b[1]) - swell,
      Math.max(a[0], b[0]) + swell,
      Math.max(a[1], b[1]) + swell,
    )
  }
  tree.finish()
  return tree
}

const side = (a: Point, b: Point, p: Point): number => Math.sign(cross(subtract(b, a), subtract(p, a)))

/** Where a chain of chords crosses or meets itself, but for neighbouring chords. */
export function crossings(points: readonly Point[]): Point[] {
  const tree = index(points)
  const found: Point[] = []
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    const near = tree.search(
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
    )
    for (const j of near) {
      if (j + 1 <= i + 1) continue
      const [c, d] = [points[j]!, points[j + 1]!]
      if (side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0) found.push(a)
    }
  }
  return found
}

/** The points at even steps of `step` mm along the chain. */
function evenly(points: readonly Point[], step: number): Point[] {
  const out: Point[] = [points[0]!]
  let left = step
  for (let i = 1; i < points.length; i++) {
    let a = points[i - 1]!
    const b = points[i]!
    let d = distance(a, b)
    while (d >= left) {
      const t = left / d
      a = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
      out.push(a)
      d = distance(a, b)
      left = step
    }
    left -= d
  }
  return out
}

/** Length lying within 0.1 mm of an earlier part, more than 6 mm back, for stretches of 4 mm or more, mm. */
export function retraced(points: readonly Point[]): number {
  const step = 0.25
  const even = evenly(points, step)
  const tree = index(even, 0.1)
  let [sum, run] = [0, 0]
  const close = () => {
    if (run * step >= 4) sum += run * step
    run = 0
  }
  even.forEach((p, i) => {
    const back = i - 6 / step
    const hit = tree
      .search(p[0], p[1], p[0], p[1])
      .some((j) => j + 1 < back && distanceToLine(p, even[j]!, even[j + 1]!) <= 0.1)
    if (hit) run++
    else close()
  })
  close()
  return sum
}

/** The diameter of the largest circle within `inside` that no line enters, on a grid, mm, and its centre. */
export function largestGap(
  points: readonly Point[],
  inside: (p: Point) => number,
  area: { readonly length: number; readonly width: number; readonly step: number },
): { diameter: number; at: Point } {
  const tree = index(points)
  let best = { diameter: 0, at: [0, 0] as Point }
  for (let u = area.step / 2; u < area.length; u += area.step)
    for (let v = area.step / 2; v < area.width; v += area.step) {
      let room = inside([u, v])
      for (const j of tree.neighbors(u, v, 12, room)) {
        room = Math.min(room, distanceToLine([u, v], points[j]!, points[j + 1]!))
      }
      if (2 * room > best.diameter) best = { diameter: 2 * room, at: [u, v] }
    }
  return best
}

/** Joints at which the direction of travel turns by more than `slack` radians: indices of the segment after. */
export function kinks(stroke: Stroke, slack = 0.02): number[] {
  const found: number[] = []
  let before: Point | undefined
  eachSegment(stroke, (from, segment, i) => {
    const start = directionAt(from, segment, 0)
    if (
      before &&
      Math.atan2(Math.abs(cross(before, start)), before[0] * start[0] + before[1] * start[1]) > slack
    )
      found.push(i)
    before = directionAt(from, segment, 1)
  })
  return found
}
