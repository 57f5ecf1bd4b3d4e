import { cross, distance, dot, type Point, subtract } from '../../src/geometry/point.ts'
import { directionAt } from '../../src/geometry/segment.ts'
import { eachSegment, endOf, flattenStroke, type Stroke, strokeLength } from '../../src/geometry/stroke.ts'
import type { Drawn, MitreStrip, Motif } from '../../src/motif/contract.ts'
import type { Law, Values } from './motif-laws.ts'
import { retraceLength } from './retrace.ts'

function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Error(message)
}

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

/** The share of itself that a stroke retraces is at most `most`. */
export const retracesAtMost =
  (most: number): Law =>
  (motif, { strip, values }) => {
    const { stroke } = motif.draw(strip, values)
    const share = retraceLength(stroke) / strokeLength(stroke)
    demand(share <= most, `${(100 * share).toFixed(1)} % lies on the line's own earlier part`)
  }

/** A law over strips that end at a mitre. */
export type MitreLaw = (motif: Motif, strip: MitreStrip, values: Values) => void

/** What `drawToMitre` draws. @throws Error if the motif has no such function */
export function drawnToMitre(motif: Motif, strip: MitreStrip, values: Values): Drawn {
  if (!motif.drawToMitre) throw new Error('draws to no mitre')
  return motif.drawToMitre(strip, values)
}

/** Starts and ends at its corners, stays inside the trapezoid and, where it says so, is smooth. */
export const isValidAtMitre: MitreLaw = (motif, strip, values) => {
  const { stroke, touches } = drawnToMitre(motif, strip, values)
  const start: Point = [0, strip.from === 'inner' ? 0 : strip.width]
  const end: Point =
    strip.to === 'inner' ? [strip.length, 0] : [strip.length + strip.skew * strip.width, strip.width]
  demand(distance(stroke.start, start) < 1e-6, `starts at ${stroke.start}, not at ${start}`)
  demand(distance(endOf(stroke), end) < 1e-6, `ends at ${endOf(stroke)}, not at ${end}`)
  demand(touches[0]?.after === 0 && touches[0].edge === strip.from, 'the first touch is not the start')
  const last = touches.at(-1)
  demand(last?.after === stroke.segments.length && last.edge === strip.to, 'the last touch is not the end')
  for (const [u, v] of flattenStroke(stroke, strip.width / 4000)) {
    const beyond = u - strip.length - strip.skew * v
    const isInside = u >= -1e-3 && v >= -1e-3 && v <= strip.width + 1e-3 && beyond <= 1e-3
    demand(isInside, `[${u}, ${v}] lies outside, ${beyond} beyond the mitre`)
  }
  if (motif.joints === 'smooth') assertNoCorner(stroke)
}

function assertNoCorner(stroke: Stroke): void {
  let before: Point = [1, 0]
  eachSegment(stroke, (from, segment, i) => {
    const next = directionAt(from, segment, 0)
    const turn = Math.atan2(Math.abs(cross(before, next)), dot(before, next))
    demand(turn < 1e-3, `turns by ${turn} rad before segment ${i}, at ${from}`)
    before = directionAt(from, segment, 1)
  })
}

/** The stroke to a mitre never meets itself. */
export const neverCrossesAtMitre: MitreLaw = (motif, strip, values) => {
  const at = firstCrossing(drawnToMitre(motif, strip, values).stroke, strip.width / 4000)
  if (at) throw new Error(`crosses itself at ${at}`)
}
