import { type Box, boundsOf } from '../../geometry/stroke.ts'
import type { Chords, Scene, SceneLine } from '../worker/messages.ts'

/** A stretch of a line's chords and the box that holds it: what is out of sight need not be drawn. */
interface Chunk {
  readonly from: number
  readonly to: number
  readonly box: Box
}

/** The chords of a line at one fineness, in chunks. */
export interface ChunkedLine {
  readonly colour: string
  readonly xy: Chords
  readonly along: Float32Array
  readonly chunks: readonly Chunk[]
}

const POINTS_A_CHUNK = 256

/** All lines of a scene in chunks: fine to look at closely, coarse from afar. */
export interface ChunkedScene {
  readonly fine: readonly ChunkedLine[]
  readonly coarse: readonly ChunkedLine[]
}

export const chunkScene = (scene: Scene): ChunkedScene => ({
  fine: scene.lines.map((line) => chunkLine(line, line.fine, line.fineAlong)),
  coarse: scene.lines.map((line) => chunkLine(line, line.coarse, line.coarseAlong)),
})

function chunkLine({ colour }: SceneLine, xy: Chords, along: Float32Array): ChunkedLine {
  const chunks: Chunk[] = []
  for (let from = 0; from < along.length - 1; from += POINTS_A_CHUNK) {
    const to = Math.min(along.length - 1, from + POINTS_A_CHUNK)
    chunks.push({ from, to, box: boundsOf(pointsOf(xy, from, to)) })
  }
  return { colour, xy, along, chunks }
}

function* pointsOf(xy: Chords, from: number, to: number): Generator<[number, number]> {
  for (let i = from; i <= to; i++) yield [xy[2 * i]!, xy[2 * i + 1]!]
}

const meets = (a: Box, b: Box): boolean =>
  a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY

/** The stretch of work to be traced, mm along it. */
export interface Stretch {
  readonly begin: number
  readonly end: number
}

/**
 * Traces the part of a line that lies within a stretch of the work and within sight, as paths of the canvas.
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
    let i = first + 1
    for (; i <= to && along[i]! <= end; i++) pen.lineTo(xy[2 * i]!, xy[2 * i + 1]!)
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
