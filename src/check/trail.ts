import type { Point } from '../geometry/point.ts'
import { type CellIndex, type Frame, frameOver, sortIntoCells } from './cell-index.ts'
import { type Polyline, type Stretches, stretchesOf, stretchLength } from './polyline.ts'

/** Lines in the order in which they are stitched, so that what is earlier near a place is found fast. */
export interface Trail extends Frame, CellIndex {
  readonly stretches: Stretches
  /** Distance along all lines at which each stretch begins, mm; a gap larger than `back` lies between two lines. */
  readonly begins: Float64Array
  /** Where each line begins and ends on that measure. */
  readonly spans: readonly (readonly [start: number, end: number])[]
  /** Which line each stretch belongs to. */
  readonly lines: Uint32Array
  readonly within: number
  readonly back: number
}

/** A place on a line and the direction there. */
export interface Along {
  readonly p: Point
  readonly heading: Point
}

/** An earlier place that lies on a later one. */
export interface Partner {
  readonly line: number
  /** On the trail's measure, mm. */
  readonly along: number
  /** How far it lies to the right of the later line's travel as seen on the screen, mm. */
  readonly offset: number
  /** Direction of travel there. */
  readonly heading: Point
}

const MOST_CELLS = 1_500_000
/** Room round all lines, so that none lies on the frame's edge, mm. */
const MARGIN = 1

/** Sorts lines for `lookBack`. Each cell must be wider than `within`. */
export function trailOf(
  polylines: readonly Polyline[],
  { within, back }: { readonly within: number; readonly back: number },
): Trail {
  const stretches = stretchesOf(polylines)
  const { begins, spans, lines } = measureAlong(polylines, stretches, back)
  const frame = frameOver(boxOf(stretches), { cell: Math.max(2, 2 * within), most: MOST_CELLS })
  return { ...frame, ...sortIntoCells(stretches, frame), stretches, begins, spans, lines, within, back }
}

function measureAlong(polylines: readonly Polyline[], stretches: Stretches, back: number) {
  const begins = new Float64Array(stretches.count)
  const lines = new Uint32Array(stretches.count)
  const spans: [number, number][] = []
  let at = 0
  let along = 0
  polylines.forEach(({ xs }, line) => {
    const start = along
    const count = xs.length === 0 ? 0 : Math.max(1, xs.length - 1)
    for (let i = 0; i < count; i++, at++) {
      begins[at] = along
      lines[at] = line
      along += stretchLength(stretches, at)
    }
    spans.push([start, along])
    along += 2 * back
  })
  return { begins, spans, lines }
}

function boxOf({ count, ax, ay, bx, by }: Stretches) {
  let [minX, minY, maxX, maxY] = count > 0 ? [Infinity, Infinity, -Infinity, -Infinity] : [0, 0, 0, 0]
  for (let i = 0; i < count; i++) {
    minX = Math.min(minX, ax[i]!, bx[i]!)
    minY = Math.min(minY, ay[i]!, by[i]!)
    maxX = Math.max(maxX, ax[i]!, bx[i]!)
    maxY = Math.max(maxY, ay[i]!, by[i]!)
  }
  return { minX: minX - MARGIN, minY: minY - MARGIN, maxX: maxX + MARGIN, maxY: maxY + MARGIN }
}

/** The stretch that lies at `along` on the trail's measure. */
function stretchAt({ begins }: Trail, along: number): number {
  let [low, high] = [0, begins.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (begins[middle]! <= along) low = middle
    else high = middle - 1
  }
  return low
}

/** The place at `along` on the trail's measure. */
export function readAlong(trail: Trail, along: number): Along {
  const i = stretchAt(trail, along)
  const { ax, ay } = trail.stretches
  const heading = headingOf(trail.stretches, i)
  const into = along - trail.begins[i]!
  return { p: [ax[i]! + heading[0] * into, ay[i]! + heading[1] * into], heading }
}

function headingOf(stretches: Stretches, i: number): Point {
  const { ax, ay, bx, by } = stretches
  const length = stretchLength(stretches, i) || 1
  return [(bx[i]! - ax[i]!) / length, (by[i]! - ay[i]!) / length]
}

/** The row or column that a coordinate in cells lies in. */
const clip = (value: number, count: number): number => Math.min(count - 1, Math.max(0, Math.floor(value)))

/** The nearest earlier place within reach of the place at `along`, if there is one. */
export function lookBack(trail: Trail, along: number): Partner | undefined {
  const { columns, rows, cell, box, within, starts, items } = trail
  const here = readAlong(trail, along)
  const [x, y] = [here.p[0] - box.minX, here.p[1] - box.minY]
  const [left, right] = [clip((x - within) / cell, columns), clip((x + within) / cell, columns)]
  let best: Partner | undefined
  const last = clip((y + within) / cell, rows)
  for (let row = clip((y - within) / cell, rows); row <= last; row++) {
    const to = starts[row * columns + right + 1]!
    for (let k = starts[row * columns + left]!; k < to; k++) {
      if (trail.begins[items[k]!]! >= along - trail.back) continue
      const partner = partnerOn(trail, items[k]!, { ...here, along })
      if (partner && (!best || Math.abs(partner.offset) < Math.abs(best.offset))) best = partner
    }
  }
  return best
}

/** The place on a stretch nearest to a later place, if it is near enough and far enough back. */
function partnerOn(
  { stretches, begins, lines, within, back }: Trail,
  i: number,
  { p, heading, along }: Along & { readonly along: number },
): Partner | undefined {
  const { ax, ay } = stretches
  const own = headingOf(stretches, i)
  const [dx, dy] = [p[0] - ax[i]!, p[1] - ay[i]!]
  const into = Math.min(stretchLength(stretches, i), Math.max(0, dx * own[0] + dy * own[1]))
  if (begins[i]! + into >= along - back) return undefined
  const [ox, oy] = [own[0] * into - dx, own[1] * into - dy]
  const away = Math.hypot(ox, oy)
  if (away > within) return undefined
  const side = heading[0] * oy - heading[1] * ox
  return { line: lines[i]!, along: begins[i]! + into, offset: side < 0 ? -away : away, heading: own }
}
