import { cross, distance, type Point, subtract } from '../../src/geometry/point.ts'
import { flattenStroke, type Stroke } from '../../src/geometry/stroke.ts'
import type { Law } from './motif-laws.ts'

/**
 * Where a stroke first crosses itself, found with chords that stray by `tolerance` mm; undefined if it does not.
 *
 * Chords are sorted into square cells; two chords that share a cell and are not neighbours are tested by the signs of
 * four cross products.
 */
export function firstCrossing(stroke: Stroke, tolerance: number): Point | undefined {
  const points = flattenStroke(stroke, tolerance).filter(
    (p, i, all) => i === 0 || distance(p, all[i - 1]!) > 0,
  )
  const size = Math.max(...points.slice(1).map((p, i) => distance(p, points[i]!)))
  const cells = new Map<string, number[]>()
  for (let i = 1; i < points.length; i++) {
    for (const key of cellsOf(points[i - 1]!, points[i]!, size)) {
      for (const j of cells.get(key) ?? []) {
        if (j < i - 1 && isCrossing([points[i - 1]!, points[i]!], [points[j - 1]!, points[j]!]))
          return points[i]
      }
      const cell = cells.get(key)
      if (cell) cell.push(i)
      else cells.set(key, [i])
    }
  }
  return undefined
}

function cellsOf(a: Point, b: Point, size: number): string[] {
  const range = (p: number, q: number): [number, number] => [
    Math.floor(Math.min(p, q) / size),
    Math.floor(Math.max(p, q) / size),
  ]
  const [x0, x1] = range(a[0], b[0])
  const [y0, y1] = range(a[1], b[1])
  const keys: string[] = []
  for (let x = x0; x <= x1; x++) for (let y = y0; y <= y1; y++) keys.push(`${x},${y}`)
  return keys
}

type Chord = readonly [Point, Point]

/** Whether two chords have a point in common, their ends included. */
export function isCrossing([a, b]: Chord, [c, d]: Chord): boolean {
  const side = (p: Point, q: Point, r: Point) => cross(subtract(q, p), subtract(r, p))
  const [abc, abd] = [side(a, b, c), side(a, b, d)]
  const [cda, cdb] = [side(c, d, a), side(c, d, b)]
  if (abc === 0 && abd === 0 && cda === 0 && cdb === 0) {
    const isWithin = (p: Point) =>
      Math.min(a[0], b[0]) <= p[0] &&
      p[0] <= Math.max(a[0], b[0]) &&
      Math.min(a[1], b[1]) <= p[1] &&
      p[1] <= Math.max(a[1], b[1])
    return isWithin(c) || isWithin(d)
  }
  return abc * abd <= 0 && cda * cdb <= 0
}

/** The stroke never meets itself. */
export const neverCrosses: Law = (motif, { strip, values }) => {
  const at = firstCrossing(motif.draw(strip, values).stroke, strip.width / 4000)
  if (at) throw new Error(`crosses itself at ${at}`)
}
