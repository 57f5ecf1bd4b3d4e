import type { Point } from '../geometry/point.ts'
import { assertWithin } from '../stitch/within-limits.ts'
import type { Polyline } from './polyline.ts'

/** The rectangle that can be stitched without moving the quilt, mm. */
export interface Reach {
  readonly width: number
  readonly height: number
}

/** One move of the quilt under the machine. */
export interface Reposition {
  readonly at: Point
  /** Which of the polylines it falls in, from 0, and how far along it, mm. */
  readonly line: number
  readonly alongMm: number
}

interface Walk {
  readonly reach: Reach
  readonly moves: Reposition[]
  minX: number
  minY: number
  maxX: number
  maxY: number
}

/** Rounding allowed before a box counts as outgrown, mm. */
const SLACK = 1e-6

/**
 * The moves that a finished line asks for: walk along it, keep the box of what has been stitched since the last move,
 * and move whenever the box would outgrow the reach.
 *
 * @param lines  thread starts in the order of work
 * @throws PlanError `check/reach` for a reach that is not above 0
 */
export function countRepositions(lines: readonly Polyline[], reach: Reach): Reposition[] {
  assertWithin('check/reach', [
    { at: 'machine.reach[0]', value: reach.width, min: 1, max: 1e6, unit: 'mm' },
    { at: 'machine.reach[1]', value: reach.height, min: 1, max: 1e6, unit: 'mm' },
  ])
  const walk: Walk = { reach, moves: [], minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity }
  lines.forEach((polyline, line) => walkAlong(walk, polyline, line))
  return walk.moves
}

/** Plain numbers where nothing is moved: chords are many, moves are few. */
function walkAlong(walk: Walk, { xs, ys }: Polyline, line: number): void {
  let alongMm = 0
  for (let i = 0; i < xs.length; i++) {
    const [x, y] = [xs[i]!, ys[i]!]
    if (i === 0) {
      startAt(walk, [x, y], line)
      continue
    }
    const [fromX, fromY] = [xs[i - 1]!, ys[i - 1]!]
    if (fits(walk, x, y)) stretch(walk, x, y)
    else
      moveOn(
        walk,
        [
          [fromX, fromY],
          [x, y],
        ],
        { line, alongMm },
      )
    alongMm += Math.sqrt((x - fromX) * (x - fromX) + (y - fromY) * (y - fromY))
  }
}

/** A thread starts at `p`: in the box, in a box that can be stretched to it, or after a move. */
function startAt(walk: Walk, p: Point, line: number): void {
  if (fits(walk, ...p)) stretch(walk, ...p)
  else move(walk, { at: p, line, alongMm: 0 })
}

/** Sews a chord that leaves the reach, moving the quilt as often as it asks. */
function moveOn(
  walk: Walk,
  [from, to]: readonly [Point, Point],
  { line, alongMm }: { readonly line: number; readonly alongMm: number },
): void {
  let done = 0
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  while (!fits(walk, ...to)) {
    done = Math.max(done, Math.min(1, shareInReach(walk, from, to)))
    const at: Point = [from[0] + (to[0] - from[0]) * done, from[1] + (to[1] - from[1]) * done]
    move(walk, { at, line, alongMm: alongMm + length * done })
  }
  stretch(walk, ...to)
}

const fits = (walk: Walk, x: number, y: number): boolean =>
  Math.max(walk.maxX, x) - Math.min(walk.minX, x) <= walk.reach.width + SLACK &&
  Math.max(walk.maxY, y) - Math.min(walk.minY, y) <= walk.reach.height + SLACK

function stretch(walk: Walk, x: number, y: number): void {
  walk.minX = Math.min(walk.minX, x)
  walk.minY = Math.min(walk.minY, y)
  walk.maxX = Math.max(walk.maxX, x)
  walk.maxY = Math.max(walk.maxY, y)
}

function move(walk: Walk, reposition: Reposition): void {
  const [x, y] = reposition.at
  walk.moves.push(reposition)
  walk.minX = walk.maxX = x
  walk.minY = walk.maxY = y
}

/** The share of the way from `from` to `to` at which the box is as large as the reach. */
function shareInReach(walk: Walk, from: Point, to: Point): number {
  const limit = (a: number, b: number, [low, high]: readonly [number, number]) => {
    if (b > high) return (high - a) / (b - a)
    return b < low ? (low - a) / (b - a) : 1
  }
  return Math.min(
    limit(from[0], to[0], [walk.maxX - walk.reach.width, walk.minX + walk.reach.width]),
    limit(from[1], to[1], [walk.maxY - walk.reach.height, walk.minY + walk.reach.height]),
  )
}
