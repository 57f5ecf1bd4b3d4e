import { add, distance, lerp, type Point, scale, subtract } from './point.ts'
import { arcToCubics, cubic, line, pointAt, type Segment, splitAt } from './segment.ts'
import { eachSegment, type Stroke } from './stroke.ts'

/** A smooth map of the plane: where a point goes, and its two partial derivatives there. */
export type Warp = (p: Point) => { readonly to: Point; readonly du: Point; readonly dv: Point }

/** How far a warped segment may lie from the exact image, mm. A tenth of a thread's thickness. */
const WARP_TOLERANCE = 0.01
const DEEPEST = 8

/**
 * The image of a stroke under a smooth map. Each cubic is fitted to the image's end points and end tangents, and
 * halved until it strays from the image by less than 0.01 mm. A line whose image is straight stays a line.
 *
 * @returns the stroke, and for each segment of the original the number of segments of the image that end with it
 */
export function warpStroke(
  stroke: Stroke,
  warp: Warp,
): { readonly stroke: Stroke; readonly ends: readonly number[] } {
  const segments: Segment[] = []
  const ends: number[] = []
  eachSegment(stroke, (from, segment) => {
    if (segment.kind === 'line') warpLine(from, segment.to, { warp, segments, depth: 0 })
    else {
      let at = from
      const cubics = segment.kind === 'arc' ? arcToCubics(from, segment) : [segment]
      for (const piece of cubics) {
        warpCubic(at, piece, { warp, segments, depth: 0 })
        at = piece.to
      }
    }
    ends.push(segments.length)
  })
  return { stroke: { start: warp(stroke.start).to, segments }, ends }
}

interface Progress {
  readonly warp: Warp
  readonly segments: Segment[]
  readonly depth: number
}

function warpLine(from: Point, to: Point, progress: Progress): void {
  const a = progress.warp(from).to
  const b = progress.warp(to).to
  const isStraight = [0.25, 0.5, 0.75].every(
    (t) => distance(progress.warp(lerp(from, to, t)).to, lerp(a, b, t)) < WARP_TOLERANCE / 10,
  )
  if (isStraight) progress.segments.push(line(b))
  else warpCubic(from, cubic(lerp(from, to, 1 / 3), lerp(from, to, 2 / 3), to), progress)
}

function warpCubic(from: Point, segment: Segment, progress: Progress): void {
  if (segment.kind !== 'cubic') return
  const { warp, segments, depth } = progress
  const start = warp(from)
  const end = warp(segment.to)
  const image = cubic(
    add(start.to, push(start, subtract(segment.c1, from))),
    add(end.to, push(end, subtract(segment.c2, segment.to))),
    end.to,
  )
  const strays = [0.2, 0.4, 0.6, 0.8].some(
    (t) => distance(pointAt(start.to, image, t), warp(pointAt(from, segment, t)).to) > WARP_TOLERANCE,
  )
  if (!strays || depth >= DEEPEST) {
    segments.push(image)
    return
  }
  const [first, second] = splitAt(from, segment, 0.5)
  const deeper = { warp, segments, depth: depth + 1 }
  warpCubic(from, first, deeper)
  warpCubic(first.to, second, deeper)
}

/** The image of a direction under the map's derivative. */
function push(at: { readonly du: Point; readonly dv: Point }, direction: Point): Point {
  return add(scale(at.du, direction[0]), scale(at.dv, direction[1]))
}
