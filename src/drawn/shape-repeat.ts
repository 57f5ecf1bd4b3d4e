import { IDENTITY, translation } from '../geometry/affine.ts'
import { cross, dot, type Point } from '../geometry/point.ts'
import { rangeOf } from '../geometry/range.ts'
import { directionAt } from '../geometry/segment.ts'
import { eachSegment, joinStrokes, type Stroke, transformStroke } from '../geometry/stroke.ts'
import { refuseDrawing } from './drawing-fault.ts'
import { type LevelStroke, layLevel } from './lay-level.ts'
import type { Subpath } from './read-path.ts'
import { refuseUnfit } from './refuse-unfit.ts'
import type { RepeatShape } from './repeat-shape.ts'

/** How far the line may reach beyond an end of its repeat, in widths. */
const BEYOND = 2e-4
/** A half shorter than this share of the repeat is none. */
const SHORTEST_HALF = 0.1
/** Directions that differ by less run on smoothly, radians. */
const SMOOTH = 1e-3

/**
 * Makes a repeat of what was drawn: checks that repeats join, keep to their own room and touch the seams, and finds where
 * they do.
 *
 * @throws DrawingRefusal that says what the drawing needs
 */
export function shapeRepeat(subpaths: readonly Subpath[]): RepeatShape {
  const level = layLevel(oneLine(subpaths))
  refuseBeyond(level)
  const shape = level.ends === 'across' ? acrossShape(level) : (alternatingShape(level) ?? freeShape(level))
  refuseUnfit(shape)
  return shape
}

function oneLine(subpaths: readonly Subpath[]): Stroke {
  const drawn = subpaths.filter(({ stroke }) => stroke.segments.length > 0)
  const [first, second] = drawn
  if (!first) refuseDrawing('no-line', 'the path draws nothing')
  if (second)
    refuseDrawing('many-lines', `the path lifts the pen: it has ${drawn.length} parts`, {
      hint: 'join them into one line',
      offset: second.offset,
    })
  if (first!.isClosed)
    refuseDrawing('closed', 'the path is closed; a repeat leads from its left end to its right end', {
      hint: 'open it at the ends of the repeat',
      offset: first!.offset,
    })
  return first!.stroke
}

function refuseBeyond({ stroke, length }: LevelStroke): void {
  let [least, most] = [0, length]
  eachSegment(stroke, (from, segment) => {
    const [low, high] = rangeOf(from, segment, 0)
    least = Math.min(least, low)
    most = Math.max(most, high)
  })
  const beyond = Math.max(-least, most - length)
  if (beyond <= BEYOND) return
  const side = -least > most - length ? 'left of its left end' : 'right of its right end'
  refuseDrawing('beyond-ends', `the path reaches ${side}, by ${Math.ceil(100 * beyond)} % of its height`, {
    hint: 'nothing of a repeat may lie beyond its two ends; move the ends out, or cut the repeat elsewhere',
  })
}

const MIRROR = { ...IDENTITY, d: -1, f: 1 }

/** A line from edge to edge is a half by itself: the next one is its mirror image across the band. */
function acrossShape({ stroke, length }: LevelStroke): RepeatShape {
  const fall = transformStroke(transformStroke(stroke, MIRROR), translation(length, 0))
  const isSmooth = isLevelAt(stroke, 'start') && isLevelAt(stroke, 'end') && runsSmoothly(stroke)
  return { kind: 'alternate', length: 2 * length, rise: stroke, fall, joints: isSmooth ? 'smooth' : 'cusped' }
}

/** A joint of the repeat at which it can be cut: all before it lies left of it, all after it right of it. */
interface Cut {
  /** How many segments lie before it. */
  readonly after: number
  readonly at: Point
}

/** The places at which a repeat can be cut, in order; its end is its start. */
function cutsOf({ stroke, length }: LevelStroke): Cut[] {
  const ranges: (readonly [number, number])[] = []
  eachSegment(stroke, (from, segment) => {
    ranges.push(rangeOf(from, segment, 0))
  })
  const rest = new Array<number>(ranges.length + 1).fill(length)
  for (let i = ranges.length - 1; i >= 0; i--) rest[i] = Math.min(rest[i + 1]!, ranges[i]![0])
  const cuts: Cut[] = []
  let reached = 0
  eachSegment(stroke, (at, _, after) => {
    if (reached <= at[0] + BEYOND && rest[after]! >= at[0] - BEYOND) cuts.push({ after, at })
    reached = Math.max(reached, ranges[after]![1])
  })
  return cuts
}

/** Of very many touches only the first are tried. */
const TRIED = 200

/** A repeat with a touch on each edge where it can be cut: two halves, as even as may be. */
function alternatingShape(level: LevelStroke): RepeatShape | undefined {
  const { length } = level
  const cuts = cutsOf(level)
  const on = (v: 0 | 1) => cuts.filter(({ at }) => at[1] === v).slice(0, TRIED)
  let best: { inner: Cut; outer: Cut; share: number } | undefined
  for (const inner of on(0))
    for (const outer of on(1)) {
      const share = ((outer.at[0] - inner.at[0] + length) % length) / length
      if (!best || Math.abs(share - 0.5) < Math.abs(best.share - 0.5) - 1e-9) best = { inner, outer, share }
    }
  if (!best || Math.min(best.share, 1 - best.share) < SHORTEST_HALF) return undefined
  const [rise, fall] = [part(level, best.inner, best.outer), part(level, best.outer, best.inner)]
  const isSmooth =
    isLevelAt(rise, 'start') && isLevelAt(fall, 'start') && runsSmoothly(joinStrokes([rise, fall]))
  return { kind: 'alternate', length, rise, fall, joints: isSmooth ? 'smooth' : 'cusped' }
}

/** The line from one cut to another, on through the next repeat if need be; begun at u = 0 or, for a fall, where the rise ends. */
function part(level: LevelStroke, from: Cut, to: Cut): Stroke {
  const { stroke, length } = level
  const next = transformStroke(stroke, translation(length, 0))
  const twice = [...stroke.segments, ...next.segments]
  const end = to.after > from.after ? to.after : to.after + stroke.segments.length
  const piece: Stroke = { start: from.at, segments: twice.slice(from.after, end) }
  const isRise = from.at[1] === 0
  const rise = isRise ? 0 : (from.at[0] - to.at[0] + length) % length
  return transformStroke(piece, translation(rise - from.at[0], 0))
}

/** A repeat as a whole, cut on an edge if it can be. */
function freeShape(level: LevelStroke): RepeatShape {
  const { stroke, length } = level
  const cuts = cutsOf(level)
  const cut = cuts.find(({ at }) => at[1] === 0) ?? cuts.find(({ at }) => at[1] === 1) ?? cuts[0]!
  const count = stroke.segments.length
  const next = transformStroke(stroke, translation(length, 0))
  const around = [...stroke.segments, ...next.segments].slice(cut.after, cut.after + count)
  const repeat = transformStroke({ start: cut.at, segments: around }, translation(-cut.at[0], 0))
  const touches = repeat.segments.flatMap(({ to }, i) =>
    to[1] === 0 || to[1] === 1
      ? [{ edge: to[1] === 0 ? ('inner' as const) : ('outer' as const), after: i + 1 }]
      : [],
  )
  const twice = joinStrokes([repeat, transformStroke(repeat, translation(length, 0))])
  const height = repeat.start[1]
  const isSmooth = runsSmoothly(twice) && (isLevelAt(repeat, 'start') || (height !== 0 && height !== 1))
  return { kind: 'free', length, height, repeat, touches, joints: isSmooth ? 'smooth' : 'cusped' }
}

function isLevelAt(stroke: Stroke, end: 'start' | 'end'): boolean {
  const last = stroke.segments.length - 1
  const from = last > 0 ? stroke.segments[last - 1]!.to : stroke.start
  const [du, dv] =
    end === 'start'
      ? directionAt(stroke.start, stroke.segments[0]!, 0)
      : directionAt(from, stroke.segments[last]!, 1)
  return Math.abs(Math.atan2(dv, du)) < SMOOTH
}

function runsSmoothly(stroke: Stroke): boolean {
  let before: Point | undefined
  let isSmooth = true
  eachSegment(stroke, (from, segment) => {
    const direction = directionAt(from, segment, 0)
    if (before) isSmooth &&= Math.abs(Math.atan2(cross(before, direction), dot(before, direction))) < SMOOTH
    before = directionAt(from, segment, 1)
  })
  return isSmooth
}
