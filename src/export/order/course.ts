import { distance, lerp, type Point } from '../../geometry/point.ts'
import { polylineLength } from '../../geometry/stroke.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import { LABELS } from '../labels.ts'

const SIDES = ['top', 'right', 'bottom', 'left'] as const
type Side = (typeof SIDES)[number]
type Way = 'right' | 'left' | 'up' | 'down' | 'here'

/** Where a stretch of line goes, side by side. */
export interface Course {
  readonly first: Way
  readonly last: Way
  /** "to the right, round the top right corner and downward". */
  readonly words: string
}

/** How many places along the stretch are looked at. */
const LOOKS = 24

/** The way that a stretch goes: along which sides, round which corners. */
export function courseOf(quilt: Quilt, points: readonly Point[], band: number | undefined): Course {
  const looks = evenly(points, LOOKS)
  const legs = band !== undefined && band < 0 ? [{ side: undefined, looks }] : legsOf(quilt, looks)
  const ways = legs.map((leg) => wayOf(leg.side, leg.looks))
  return { first: ways[0]!, last: ways.at(-1)!, words: wordsOf(legs, ways) }
}

const OPPOSITE: Readonly<Record<Way, Way>> = {
  right: 'left',
  left: 'right',
  up: 'down',
  down: 'up',
  here: 'here',
}

/** Whether the second course sets out against the end of the first. */
export const isOpposite = (first: Course, second: Course): boolean =>
  first.last !== 'here' && OPPOSITE[first.last] === second.first

interface Leg {
  readonly side: Side | undefined
  readonly looks: readonly Point[]
}

/** Runs of looks on one side; a side with a single look at an end is a corner's tie and is dropped. */
function legsOf(quilt: Quilt, looks: readonly Point[]): Leg[] {
  const legs: { side: Side; looks: Point[] }[] = []
  for (const p of looks) {
    const side = sideAt(quilt, p)
    if (legs.at(-1)?.side === side) legs.at(-1)!.looks.push(p)
    else legs.push({ side, looks: [p] })
  }
  const long = legs.filter((leg) => leg.looks.length > 2)
  return long.length > 0 ? long.filter((leg, i) => leg.side !== long[i - 1]?.side) : legs.slice(0, 1)
}

/** The side of the quilt on which a point lies: the one it lies furthest out on, seen from the middle. */
function sideAt(quilt: Quilt, [x, y]: Point): Side {
  const ring = quilt.rings[0]!
  const [x0, y0] = ring[0]!
  const [x1, y1] = ring[2]!
  const out = [y0 - y, x - x1, y - y1, x0 - x]
  return SIDES[out.indexOf(Math.max(...out))]!
}

function wayOf(side: Side | undefined, looks: readonly Point[]): Way {
  const [a, b] = [looks[0]!, looks.at(-1)!]
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  if (Math.hypot(dx, dy) < 1) return 'here'
  // Along its side, unless the stretch goes plainly across it.
  const favour = side === undefined ? 1 : side === 'top' || side === 'bottom' ? 2 : 0.5
  const isLevel = Math.abs(dx) * favour >= Math.abs(dy)
  if (isLevel) return dx >= 0 ? 'right' : 'left'
  return dy >= 0 ? 'down' : 'up'
}

function wordsOf(legs: readonly Leg[], ways: readonly Way[]): string {
  const { order: say } = LABELS
  if (legs.length >= 4) return isClockwise(legs) ? say.lap.clockwise : say.lap.anticlockwise
  const words: string[] = [say.ways[ways[0]!]]
  for (let i = 1; i < legs.length; i++)
    words.push(`${say.round(cornerOf(legs[i - 1]!.side, legs[i]!.side))} and ${say.ways[ways[i]!]}`)
  return words.join(', ')
}

const isClockwise = ([a, b]: readonly Leg[]): boolean =>
  (SIDES.indexOf(a!.side!) + 1) % 4 === SIDES.indexOf(b!.side!)

function cornerOf(a: Side | undefined, b: Side | undefined): string {
  const sides = [a, b]
  const row = sides.includes('bottom') ? 'bottom' : 'top'
  const column = sides.includes('left') ? 'left' : 'right'
  return LABELS.order.corners[`${row} ${column}`]
}

/** Points at even distances along a polyline, the ends included. */
function evenly(points: readonly Point[], count: number): Point[] {
  const step = polylineLength(points) / (count - 1)
  const found: Point[] = [points[0]!]
  let [done, next] = [0, step]
  for (let i = 1; i < points.length && found.length < count - 1; i++) {
    const length = distance(points[i - 1]!, points[i]!)
    while (length > 0 && done + length >= next && found.length < count - 1) {
      found.push(lerp(points[i - 1]!, points[i]!, (next - done) / length))
      next += step
    }
    done += length
  }
  return [...found, points.at(-1)!]
}
