import type { Point } from '../geometry/point.ts'
import type { Edge } from './contract.ts'
import { seededRandom } from './random.ts'

export interface Circle {
  readonly centre: Point
  /** mm */
  readonly radius: number
  /** Distance between the lines of its spiral, if that is its own, mm. */
  readonly spacing?: number
}

/** A field of touching circles: columns of large and small ones in turn, begun now with a large one, now a small. */
export interface Field {
  /** mm */
  readonly width: number
  /** How far the circles stay from the edges, mm. */
  readonly margin: number
  /** How far the circles of neighbouring columns stay apart, mm. */
  readonly apart: number
  /** Columns. */
  readonly count: number
  /** Pairs of a large and a small circle in a column. */
  readonly pairs: number
  /** The edge at which the first column is begun; the next one is then begun at the other. */
  readonly first: Edge
  readonly seed: number
}

/** The share of a column that its larger circle takes: inside the field, and at its ends. */
const LARGE = 0.61
const LARGE_AT_END = 0.53
const WOBBLE = 0.01

/** One column, centred on u = 0, from the inner edge outward; `share` is the first circle's of its pair. */
function column({ width, margin, pairs }: Field, share: number): Circle[] {
  const room = (width / 2 - margin) / pairs
  let v = margin
  return Array.from({ length: 2 * pairs }, (_, i): Circle => {
    const radius = (i % 2 === 0 ? share : 1 - share) * room
    v += 2 * radius
    return { centre: [0, v - radius], radius }
  })
}

const shifted = (circle: Circle, by: number): Circle => ({
  centre: [circle.centre[0] + by, circle.centre[1]],
  radius: circle.radius,
})

/** Where to put the column `right` so that its circles stay `apart` from those of `left`, mm. */
function beside(left: readonly Circle[], right: readonly Circle[], apart: number): number {
  let u = -Infinity
  for (const a of left)
    for (const b of right) {
      const reach = a.radius + b.radius + apart
      const across = a.centre[1] - b.centre[1]
      if (reach <= Math.abs(across)) continue
      u = Math.max(u, a.centre[0] + Math.sqrt(reach * reach - across * across) - b.centre[0])
    }
  return u
}

/** The circles of an end column moved to lean against the wall: -1 on the left, 1 on the right, 0 for none. */
function leaning(circles: readonly Circle[], wall: -1 | 0 | 1): Circle[] {
  const widest = Math.max(...circles.map((c) => c.radius))
  return circles.map((c) => shifted(c, wall * (widest - c.radius)))
}

const mirrored = (circle: Circle, width: number): Circle => ({
  centre: [circle.centre[0], width - circle.centre[1]],
  radius: circle.radius,
})

/**
 * The circles of a field in the order in which a line winds through it: across the first column, back across the
 * next. Every circle touches the one before in its column; the first column is near u = 0.
 */
export function circleColumns(field: Field): Circle[] {
  const random = seededRandom(field.seed)
  const circles: Circle[] = []
  let before: Circle[] = []
  for (let i = 0; i < field.count; i++) {
    const last = i === field.count - 1
    const share = (i === 0 || last ? LARGE_AT_END : LARGE) + random.between(-WOBBLE, WOBBLE)
    const next = leaning(column(field, i % 2 === 0 ? share : 1 - share), i === 0 ? -1 : last ? 1 : 0)
    const u = i === 0 ? 0 : beside(before, next, field.apart)
    before = next.map((c) => shifted(c, u))
    circles.push(...(i % 2 === 0 ? before : [...before].reverse()))
  }
  return field.first === 'inner' ? circles : circles.map((c) => mirrored(c, field.width))
}
