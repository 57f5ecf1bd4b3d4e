import { distance, lerp, type Point } from '../../geometry/point.ts'
import { polylineLength } from '../../geometry/stroke.ts'
import { depthBeside, depthIn, sideRay } from '../../quilt/outline.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import { sideWords } from '../../quilt/side-words.ts'
import { LABELS } from '../labels.ts'

type Way = keyof typeof LABELS.order.ways

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
  const outline = outlineOf(quilt, looks, band)
  const legs = band !== undefined && band < 0 ? [{ side: undefined, looks }] : legsOf(outline, looks)
  const ways = legs.map((leg) =>
    wayOf(leg.side === undefined ? undefined : outline.names[leg.side], leg.looks),
  )
  return { first: ways[0]!, last: ways.at(-1)!, words: wordsOf(legs, { ways, outline }) }
}

/** What a stretch runs round, and what its sides are called. */
interface Outline {
  readonly ring: readonly Point[]
  readonly names: readonly string[]
}

/** The centre's outline; where the rings do not all run the same way, the one inside the band, or the nearest. */
function outlineOf(quilt: Quilt, looks: readonly Point[], band: number | undefined): Outline {
  const named = quilt.rings.map((ring) => ({ ring, names: ring.map((_, side) => sideWords(ring, side)) }))
  const [centre] = named
  if (named.every(({ names }) => names.join() === centre!.names.join())) return centre!
  if (band !== undefined && band >= 0) return named[band]!
  const middle = looks[Math.floor(looks.length / 2)]!
  const away = ({ ring }: Outline) => Math.abs(depthIn(middle, ring))
  return named.reduce((best, outline) => (away(outline) < away(best) ? outline : best))
}

const OPPOSITE: Readonly<Record<Way, Way>> = {
  right: 'left',
  left: 'right',
  up: 'down',
  down: 'up',
  upRight: 'downLeft',
  downRight: 'upLeft',
  downLeft: 'upRight',
  upLeft: 'downRight',
  here: 'here',
}

/** Whether the second course sets out against the end of the first. */
export const isOpposite = (first: Course, second: Course): boolean =>
  first.last !== 'here' && OPPOSITE[first.last] === second.first

interface Leg {
  /** Index of the outline's side. */
  readonly side: number | undefined
  readonly looks: readonly Point[]
}

/** Runs of looks on one side; a side with a single look at an end is a corner's tie and is dropped. */
function legsOf({ ring }: Outline, looks: readonly Point[]): Leg[] {
  const legs: { side: number; looks: Point[] }[] = []
  for (const p of looks) {
    const side = sideAt(ring, p)
    if (legs.at(-1)?.side === side) legs.at(-1)!.looks.push(p)
    else legs.push({ side, looks: [p] })
  }
  const long = legs.filter((leg) => leg.looks.length > 2)
  return long.length > 0 ? long.filter((leg, i) => leg.side !== long[i - 1]?.side) : legs.slice(0, 1)
}

/** The side on which a point lies: the one it lies furthest out on, seen from the middle. */
function sideAt(ring: readonly Point[], p: Point): number {
  const out = ring.map((_, side) => -depthBeside(p, sideRay(ring, side)))
  return out.indexOf(Math.max(...out))
}

/** The way of a stretch along a side of that name; across the quilt if it has none. */
function wayOf(side: string | undefined, looks: readonly Point[]): Way {
  const [a, b] = [looks[0]!, looks.at(-1)!]
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
  if (Math.hypot(dx, dy) < 1) return 'here'
  if (side?.includes(' '))
    return dy >= 0 ? (dx >= 0 ? 'downRight' : 'downLeft') : dx >= 0 ? 'upRight' : 'upLeft'
  // Along its side, unless the stretch goes plainly across it.
  const favour = side === undefined ? 1 : side === 'top' || side === 'bottom' ? 2 : 0.5
  const isLevel = Math.abs(dx) * favour >= Math.abs(dy)
  if (isLevel) return dx >= 0 ? 'right' : 'left'
  return dy >= 0 ? 'down' : 'up'
}

function wordsOf(
  legs: readonly Leg[],
  { ways, outline }: { ways: readonly Way[]; outline: Outline },
): string {
  const { order: say } = LABELS
  const count = outline.ring.length
  if (legs.length >= count) return isClockwise(legs, count) ? say.lap.clockwise : say.lap.anticlockwise
  const words: string[] = [say.ways[ways[0]!]]
  for (let i = 1; i < legs.length; i++)
    words.push(`${cornerText(legs[i - 1]!, legs[i]!, outline)} and ${say.ways[ways[i]!]}`)
  return words.join(', ')
}

const isClockwise = ([a, b]: readonly Leg[], count: number): boolean => (a!.side! + 1) % count === b!.side

/** The corner between two sides of an upright rectangle by its name, any other by the side it leads to. */
function cornerText(a: Leg, b: Leg, { names }: Outline): string {
  const { order: say } = LABELS
  const sides = [names[a.side!]!, names[b.side!]!]
  if (names.length !== 4 || sides.some((side) => side.includes(' '))) return say.roundTo(sides[1]!)
  const row = sides.includes('bottom') ? 'bottom' : 'top'
  const column = sides.includes('left') ? 'left' : 'right'
  return say.round(say.corners[`${row} ${column}`])
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
