import type { Point } from '../geometry/point.ts'
import type { Box } from '../geometry/stroke.ts'
import { type CellGrid, type CellIndex, gridOver, sortIntoCells } from './cell-index.ts'
import { type Polyline, type Stretches, stretchesOf, stretchLength } from './polyline.ts'

/** Lines in the order in which they are stitched, so that what is earlier near a place is found fast. */
export interface Trail extends CellGrid, CellIndex {
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
/** Room round all lines, so that none lies on the grid's edge, mm. */
const MARGIN = 1

/** Sorts lines for `lookBack`. Each cell must be wider than `within`. */
export function trailOf(
  polylines: readonly Polyline[],
  { within, back }: { readonly within: number; readonly back: number },
): Trail {
  const stretches = stretchesOf(polylines)
  const { begins, spans, lines } = measureAlong(polylines, stretches, back)
  const grid = gridOver(boxOf(stretches), { cell: Math.max(2, 2 * within), most: MOST_CELLS })
  return { ...grid, ...sortIntoCells(stretches, grid), stretches, begins, spans, lines, within, back }
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

function boxOf({ count, ax, ay, bx, by }: Stretches): Box {
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
export function stretchAt({ begins }: Trail, along: number): number {
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
  const here = readAlong(trail, along)
  const i = nearestEarlier(trail, { x: here.p[0], y: here.p[1], along })
  return i === undefined ? undefined : partnerOn(trail, i, here)
}

/** Whether an earlier place lies within reach of the place at `along`, which lies on stretch `i`. */
export function isOnEarlier(trail: Trail, i: number, along: number): boolean {
  const { ax, ay, bx, by } = trail.stretches
  const length = stretchLength(trail.stretches, i) || 1
  const into = (along - trail.begins[i]!) / length
  const x = ax[i]! + (bx[i]! - ax[i]!) * into
  const y = ay[i]! + (by[i]! - ay[i]!) * into
  return nearestEarlier(trail, { x, y, along }) !== undefined
}

interface Spot {
  readonly x: number
  readonly y: number
  readonly along: number
}

/** The stretch with the nearest earlier place within reach; plain numbers, as it is asked every millimetre. */
function nearestEarlier(trail: Trail, { x, y, along }: Spot): number | undefined {
  const { columns, rows, cell, box, within, starts, items, begins, back } = trail
  const [dx, dy] = [x - box.minX, y - box.minY]
  const left = clip((dx - within) / cell, columns)
  const right = clip((dx + within) / cell, columns)
  const last = clip((dy + within) / cell, rows)
  let best: number | undefined
  let least = within
  for (let row = clip((dy - within) / cell, rows); row <= last; row++) {
    const to = starts[row * columns + right + 1]!
    for (let k = starts[row * columns + left]!; k < to; k++) {
      const i = items[k]!
      if (begins[i]! >= along - back) continue
      const away = earlierDistance(trail, i, { x, y, along })
      if (best === undefined ? away <= least : away < least) [best, least] = [i, away]
    }
  }
  return best
}

/** How far a spot is from its nearest place on a stretch; Infinity if that place is not far enough back along the line. */
function earlierDistance({ stretches, begins, back }: Trail, i: number, { x, y, along }: Spot): number {
  const [ax, ay] = [stretches.ax[i]!, stretches.ay[i]!]
  const length = stretchLength(stretches, i)
  const ux = (stretches.bx[i]! - ax) / (length || 1)
  const uy = (stretches.by[i]! - ay) / (length || 1)
  const into = Math.min(length, Math.max(0, (x - ax) * ux + (y - ay) * uy))
  if (begins[i]! + into >= along - back) return Number.POSITIVE_INFINITY
  const ox = ax + ux * into - x
  const oy = ay + uy * into - y
  return Math.sqrt(ox * ox + oy * oy)
}

/** The place on a stretch nearest to a later place. */
function partnerOn({ stretches, begins, lines }: Trail, i: number, { p, heading }: Along): Partner {
  const { ax, ay } = stretches
  const own = headingOf(stretches, i)
  const [dx, dy] = [p[0] - ax[i]!, p[1] - ay[i]!]
  const into = Math.min(stretchLength(stretches, i), Math.max(0, dx * own[0] + dy * own[1]))
  const [ox, oy] = [own[0] * into - dx, own[1] * into - dy]
  const away = Math.hypot(ox, oy)
  const side = heading[0] * oy - heading[1] * ox
  return { line: lines[i]!, along: begins[i]! + into, offset: side < 0 ? -away : away, heading: own }
}
