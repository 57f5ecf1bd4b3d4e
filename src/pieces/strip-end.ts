import { dot, lerp, type Point, scale, subtract, unit } from '../geometry/point.ts'
import type { Run } from '../motif/draw-stretch.ts'
import { nearestOfParity, type Rhythm } from '../motif/fit.ts'
import { footOnOuter } from '../quilt/layout.ts'
import { meetingPoint } from '../quilt/outline.ts'
import type { Band } from '../quilt/quilt.ts'

/** Where a strip ends, in its half side's frame: along the inner and along the outer seam, mm. */
export interface StripEnd {
  readonly inner: number
  readonly outer: number
}

/**
 * The end of one strip of a band: square at its inner corner where a cornerstone lies, or where it was sewn first; past it,
 * at the outer seam of its neighbour, where it was sewn over that one's end. Undefined on a mitre.
 */
export function stripEndOf(
  band: Band,
  { side: index, half }: { side: number; half: 'left' | 'right' },
): StripEnd | undefined {
  if (band.corners === 'mitred') return undefined
  const side = band.sides[index]!
  const isRight = half === 'right'
  const middle = lerp(side.innerA, side.innerB, 0.5)
  const along = scale(unit(subtract(side.innerB, side.innerA)), isRight ? 1 : -1)
  const local = (p: Point) => dot(subtract(p, middle), along)
  const inner = isRight ? side.innerB : side.innerA
  const isFirst = (band.corners === 'butted-rows') === (index % 2 === 0)
  if (band.corners === 'cornerstone' || isFirst) {
    return { inner: local(inner), outer: local(footOnOuter(inner, side)) }
  }
  const neighbour = band.sides[(index + (isRight ? 1 : band.sides.length - 1)) % band.sides.length]!
  const over = meetingPoint(
    { at: side.innerA, along: subtract(side.innerB, side.innerA) },
    { at: neighbour.outerA, along: subtract(neighbour.outerB, neighbour.outerA) },
  )
  return { inner: local(over), outer: local(isRight ? side.outerB : side.outerA) }
}

/** The run of a filler between two stations, counted from the corner, as on a mitre. */
export type WholeRun = (to: number, from: number) => Run

interface StripRun {
  /** The station nearer the corner, of the stretch that is asked for. */
  readonly station: number
  readonly whole: WholeRun
  readonly end: StripEnd
  readonly rhythm: Rhythm
}

/** A strip whose end leans by less is cut square, mm. */
const SQUARE = 1e-6
/** The last stretch of a strip is at least so long, in repeats and in widths of the strip. */
const LEAST_REPEATS = 0.4
const LEAST_WIDTHS = 0.25

/**
 * The run of a strip in the stretch from `station + 1` outward: the last one leads to the strip's end, with as many repeats as
 * fit there, and takes in the stretches that lie beyond the end or just short of it. Undefined for those.
 */
export function runToStripEnd({ station, whole, end, rhythm }: StripRun): Run | undefined {
  const from = station + 1
  if (station > 0 && hasRoom(endingAt(end, whole(0, station)), rhythm)) return whole(station, from)
  const run = endingAt(end, whole(0, from))
  // The stretch nearer the middle leads to the end if this one can't.
  if (!run.atMiddle && !hasRoom(run, rhythm)) return undefined
  const length = spans(run).reduce((sum, span) => sum + span, 0) / 2
  return { ...run, halfRepeats: repeatsIn(Math.max(length, 0), run, rhythm) }
}

function endingAt(end: StripEnd, run: Run): Run {
  const isSquare = Math.abs(end.outer - end.inner) < SQUARE
  return { ...run, stretch: { ...run.stretch, end }, atCorner: !isSquare }
}

/** How long a run is on the inner and on the outer seam, mm. */
const spans = ({ stretch: { start, end } }: Run): readonly number[] => [
  end.inner - start.inner,
  end.outer - start.outer,
]

function hasRoom(run: Run, { repeat }: Rhythm): boolean {
  const least = Math.min(...spans(run))
  return least >= Math.max(LEAST_REPEATS * repeat, LEAST_WIDTHS * run.stretch.width)
}

function repeatsIn(length: number, { from, to }: Run, { ends, repeat }: Rhythm): number {
  if (ends === 'free') return 2 * Math.max(1, Math.round(length / repeat))
  return nearestOfParity((2 * length) / repeat, from === to ? 2 : 1)
}
