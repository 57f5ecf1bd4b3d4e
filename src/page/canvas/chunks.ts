import type { Box } from '../../geometry/stroke.ts'
import type { Chain, Chords } from '../worker/messages.ts'

/** A stretch of a line's chords and the box that holds it: what is out of sight need not be drawn. */
interface Chunk {
  readonly from: number
  readonly to: number
  readonly box: Box
}

/** A chain of chords in chunks. */
export interface ChunkedLine extends Chain {
  readonly chunks: readonly Chunk[]
}

const POINTS_A_CHUNK = 256

export function chunkChain({ xy, along }: Chain): ChunkedLine {
  const chunks: Chunk[] = []
  for (let from = 0; from < along.length - 1; from += POINTS_A_CHUNK) {
    const to = Math.min(along.length - 1, from + POINTS_A_CHUNK)
    chunks.push({ from, to, box: boxOf(xy, from, to) })
  }
  return { xy, along, chunks }
}

function boxOf(xy: Chords, from: number, to: number): Box {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity]
  for (let i = from; i <= to; i++) {
    const [x, y] = [xy[2 * i]!, xy[2 * i + 1]!]
    if (x < minX) minX = x
    if (x > maxX) maxX = x
    if (y < minY) minY = y
    if (y > maxY) maxY = y
  }
  return { minX, minY, maxX, maxY }
}

const meets = (a: Box, b: Box): boolean =>
  a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY

/** The stretch of work to be traced, mm along it. */
export interface Stretch {
  readonly begin: number
  readonly end: number
}

/**
 * Traces the part of a line that lies within a stretch of the work and within sight, as paths of the canvas. Where a
 * place is not a number, the line is broken off.
 *
 * @returns whether there was anything to trace
 */
export function traceLine(
  pen: Pick<CanvasRenderingContext2D, 'moveTo' | 'lineTo'>,
  { xy, along, chunks }: ChunkedLine,
  { begin, end, sight }: Stretch & { readonly sight: Box },
): boolean {
  let isTraced = false
  let last = -1
  for (const { from, to, box } of chunks) {
    if (along[to]! <= begin) continue
    if (along[from]! >= end) break
    if (!meets(box, sight)) continue
    const first = Math.max(from, placeOf(along, begin))
    if (last !== first) pen.moveTo(...pointAlong(xy, along, Math.max(begin, along[first]!)))
    let isBroken = Number.isNaN(xy[2 * first])
    let i = first + 1
    for (; i <= to && along[i]! <= end; i++) {
      const [x, y] = [xy[2 * i]!, xy[2 * i + 1]!]
      if (isBroken) pen.moveTo(x, y)
      else pen.lineTo(x, y)
      isBroken = Number.isNaN(x)
    }
    if (i <= to) pen.lineTo(...pointAlong(xy, along, end))
    last = i - 1
    isTraced = true
  }
  return isTraced
}

/** Index of the last point at or before a distance along the work. */
export function placeOf(along: Float32Array, distance: number): number {
  let [low, high] = [0, along.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (along[middle]! <= distance) low = middle
    else high = middle - 1
  }
  return low
}

/** The point at a distance along the work. */
export function pointAlong(xy: Chords, along: Float32Array, distance: number): [number, number] {
  const i = placeOf(along, distance)
  const j = Math.min(i + 1, along.length - 1)
  const span = along[j]! - along[i]!
  const t = span > 0 ? Math.min(1, Math.max(0, (distance - along[i]!) / span)) : 0
  return [xy[2 * i]! + (xy[2 * j]! - xy[2 * i]!) * t, xy[2 * i + 1]! + (xy[2 * j + 1]! - xy[2 * i + 1]!) * t]
}
