import { type Affine, IDENTITY } from '../geometry/affine.ts'
import { distance, type Point } from '../geometry/point.ts'
import { strokeRange } from '../geometry/range.ts'
import { cubic, line, type Segment } from '../geometry/segment.ts'
import { eachSegment, endOf, reverseStroke, type Stroke, transformStroke } from '../geometry/stroke.ts'
import { refuseDrawing } from './drawing-fault.ts'
import { splitAtCrests } from './extremes.ts'

/** A stroke in widths of the band: from u = 0 to `length`, v from 0 to 1. */
export interface LevelStroke {
  readonly stroke: Stroke
  readonly length: number
  /** `same`: it ends as high as it starts; `across`: it leads from one edge to the other. */
  readonly ends: 'same' | 'across'
}

/** Ends whose heights differ by less are meant to be level, in widths. */
const LEVEL = 0.01
/** A place this close to an edge is meant to touch it, in widths. */
const TOUCH = 1e-3
/** How many times as long as high a repeat may be, or the other way round. */
const LONGEST = 50
/** Shorter segments are left out, in widths. */
const SHORTEST = 1e-7

/**
 * Lays a drawn stroke into the band's frame: from left to right, its lowest place on the inner edge, its highest on the
 * outer one, with a joint wherever it turns back across the band.
 *
 * @param drawn  y down, as drawings are
 * @throws DrawingRefusal if it has no length or height, or its ends could not join
 */
export function layLevel(drawn: Stroke): LevelStroke {
  const forward = endOf(drawn)[0] < drawn.start[0] ? reverseStroke(drawn) : drawn
  const laid = withoutDust(layInBand(forward))
  const rise = endOf(laid)[1] - laid.start[1]
  if (Math.abs(rise) > LEVEL) {
    const [low, high] = [Math.min(laid.start[1], endOf(laid)[1]), Math.max(laid.start[1], endOf(laid)[1])]
    if (low > LEVEL || high < 1 - LEVEL) refuseEnds(laid)
    const upward = rise > 0 ? laid : transformStroke(laid, { ...IDENTITY, d: -1, f: 1 })
    return { stroke: onEdges(splitAtCrests(endedOn(upward, 0, 1))), length: endOf(laid)[0], ends: 'across' }
  }
  const level = layInBand(transformStroke(laid, { ...IDENTITY, b: -rise / endOf(laid)[0] }), 1)
  const height = edgeNear(level.start[1])
  return {
    stroke: onEdges(splitAtCrests(endedOn(level, height, height))),
    length: endOf(level)[0],
    ends: 'same',
  }
}

function refuseEnds(laid: Stroke): never {
  const percent = (v: number) => `${Math.round(100 * v)} %`
  return refuseDrawing(
    'ends',
    `the path starts at ${percent(laid.start[1])} of its height and ends at ${percent(endOf(laid)[1])}: repeats would not join`,
    { hint: 'end it as high as it starts, or lead it from its lowest place to its highest' },
  )
}

/** @param up  1 if v already runs upward */
function layInBand(stroke: Stroke, up: 1 | -1 = -1): Stroke {
  const length = endOf(stroke)[0] - stroke.start[0]
  const [low, high] = strokeRange(stroke, 1)
  const height = high - low
  const size = Math.max(length, height)
  if (!(size > 0) || length * LONGEST < height)
    refuseDrawing('no-length', 'the path does not lead from a left end to a right end', {
      hint: 'draw one repeat from left to right',
    })
  if (height * LONGEST < length)
    refuseDrawing('no-height', 'the path has no height to speak of', {
      hint: 'its lowest place lies on the inner seam, its highest on the outer one',
    })
  const map: Affine = {
    a: 1 / height,
    b: 0,
    c: 0,
    d: up / height,
    e: -stroke.start[0] / height,
    f: (up === 1 ? -low : high) / height,
  }
  return transformStroke(stroke, map)
}

function withoutDust(stroke: Stroke): Stroke {
  const segments: Segment[] = []
  let at = stroke.start
  for (const segment of stroke.segments) {
    const size =
      segment.kind === 'cubic'
        ? Math.max(distance(at, segment.c1), distance(at, segment.c2), distance(at, segment.to))
        : distance(at, segment.to)
    if (size < SHORTEST) continue
    segments.push(segment)
    at = segment.to
  }
  return { start: stroke.start, segments }
}

/** The edge that a height all but lies on, or the height itself. */
const edgeNear = (v: number): number => (v < TOUCH ? 0 : v > 1 - TOUCH ? 1 : v)

const raised = ([u, v]: Point, by: number): Point => [u, v + by]

/** The segment with its ends, and the handles there, raised. */
function raisedSegment(segment: Segment, start: number, end: number): Segment {
  const to = raised(segment.to, end)
  return segment.kind === 'cubic' ? cubic(raised(segment.c1, start), raised(segment.c2, end), to) : line(to)
}

/** The stroke with its start and its end at these heights. */
function endedOn({ start, segments }: Stroke, first: number, last: number): Stroke {
  const by = (i: number) => (i === segments.length - 1 ? last - segments[i]!.to[1] : 0)
  return {
    start: [start[0], first],
    segments: segments.map((s, i) =>
      setEnd(raisedSegment(s, i === 0 ? first - start[1] : 0, by(i)), by(i) === 0 ? undefined : last),
    ),
  }
}

/** Without the rounding of a sum. */
const setEnd = (segment: Segment, height: number | undefined): Segment =>
  height === undefined ? segment : { ...segment, to: [segment.to[0], height] }

/** Moves every joint that all but touches an edge onto it, and its handles with it. */
function onEdges(stroke: Stroke): Stroke {
  const segments: Segment[] = []
  eachSegment(stroke, (from, segment) => {
    const height = edgeNear(segment.to[1])
    const moved = raisedSegment(segment, edgeNear(from[1]) - from[1], height - segment.to[1])
    segments.push(setEnd(moved, height))
  })
  return { start: [stroke.start[0], edgeNear(stroke.start[1])], segments }
}
