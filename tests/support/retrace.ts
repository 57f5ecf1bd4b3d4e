import { distance, distanceToLine, type Point } from '../../src/geometry/point.ts'
import { flattenStroke, polylineLength, type Stroke } from '../../src/geometry/stroke.ts'

const STEP = 0.25
const NEAR = 0.1
const BACK = 6
const LEAST = 4

/**
 * The length of the stroke that lies within 0.1 mm of an earlier part of itself, more than 6 mm back along it, for a
 * stretch of 4 mm or more, mm. Found by walking in steps of 0.25 mm.
 */
export function retraceLength(stroke: Stroke): number {
  const points = evenPoints(flattenStroke(stroke, 0.005), STEP)
  const cells = new Map<number, number[]>()
  let [total, run] = [0, 0]
  points.forEach((p, i) => {
    const ready = i - Math.round(BACK / STEP)
    if (ready >= 0) add(cells, points[ready]!, ready)
    if (isNearEarlier({ points, cells, p })) run++
    else {
      if (run * STEP >= LEAST) total += run * STEP
      run = 0
    }
  })
  return total + (run * STEP >= LEAST ? run * STEP : 0)
}

/** A number for each 1 mm cell within 30 m of the origin. */
const keyOf = (x: number, y: number): number => Math.floor(x) * 65536 + Math.floor(y)

function add(cells: Map<number, number[]>, p: Point, index: number): void {
  const key = keyOf(p[0], p[1])
  const cell = cells.get(key)
  if (cell) cell.push(index)
  else cells.set(key, [index])
}

function isNearEarlier({
  points,
  cells,
  p,
}: {
  points: readonly Point[]
  cells: ReadonlyMap<number, number[]>
  p: Point
}): boolean {
  for (const dx of [-0.4, 0.4]) {
    for (const dy of [-0.4, 0.4]) {
      for (const j of cells.get(keyOf(p[0] + dx, p[1] + dy)) ?? []) {
        if (j > 0 && distanceToLine(p, points[j - 1]!, points[j]!) <= NEAR) return true
      }
    }
  }
  return false
}

/** Points every `step` mm along the chain of chords through `points`, from its start. */
export function evenPoints(points: readonly Point[], step: number): Point[] {
  const even: Point[] = [points[0]!]
  const count = Math.floor(polylineLength(points) / step)
  let [i, walked] = [1, 0]
  for (let n = 1; n <= count; n++) {
    while (i < points.length - 1 && walked + distance(points[i - 1]!, points[i]!) < n * step) {
      walked += distance(points[i - 1]!, points[i]!)
      i++
    }
    const [a, b] = [points[i - 1]!, points[i]!]
    const t = (n * step - walked) / Math.max(distance(a, b), 1e-12)
    even.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t])
  }
  return even
}
