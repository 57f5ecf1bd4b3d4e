import { distanceToLine, type Point } from '../../src/geometry/point.ts'
import { directionAt, type Segment } from '../../src/geometry/segment.ts'
import { eachSegment, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import { type Stitches, stitchLength } from '../../src/stitch/lay-stitches.ts'
import type { Line } from '../../src/stitch/line.ts'
import type { StitchSettings } from '../../src/stitch/settings.ts'

/** Rounding allowed, mm. */
const SLACK = 1e-6

export const lengthOfLine = (line: Line): number =>
  line.parts.reduce((sum, part) => sum + strokeLength(part.stroke), 0)

/** Every place where the direction jumps by more than `cuspAngle`, found from the strokes themselves. */
function cuspsOf(line: Line, cuspAngle: number): Point[] {
  const cusps: Point[] = []
  let before: Point | undefined
  for (const part of line.parts) {
    eachSegment(part.stroke, (from: Point, segment: Segment) => {
      const d = directionAt(from, segment, 0)
      const cosine = before ? before[0] * d[0] + before[1] * d[1] : 1
      if (Math.acos(Math.min(1, Math.max(-1, cosine))) > cuspAngle + 1e-6) cusps.push(from)
      before = directionAt(from, segment, 1)
    })
  }
  return cusps
}

/** What is wrong with stitches laid along a line; empty if nothing is. */
export function faultsOf(line: Line, stitches: Stitches, settings: StitchSettings): string[] {
  return [
    ...lengthFaults(stitches, settings),
    ...cuspFaults(line, stitches, settings),
    ...chordFaults(line, stitches, settings),
    ...totalFaults(line, stitches),
  ]
}

function lengthFaults(stitches: Stitches, { lengthMm, minLength }: StitchSettings): string[] {
  const faults: string[] = []
  for (let i = 0; i < stitches.count; i++) {
    const length = stitchLength(stitches, i)
    if (length > lengthMm + SLACK) faults.push(`stitch ${i} is ${length} mm long`)
    if (stitches.tied[i] === 0 && length < minLength - SLACK) faults.push(`stitch ${i} is only ${length} mm`)
  }
  return faults
}

const needlesOf = ({ xs, ys }: Stitches): Point[] => Array.from(xs, (x, i): Point => [x, ys[i]!])

/** Looks up the points about a place, by cells of a mm. */
function placesOf(points: readonly Point[]): (at: Point) => Point[] {
  const cells = new Map<string, Point[]>()
  const cellOf = ([x, y]: Point, dx = 0, dy = 0) => `${Math.floor(x) + dx} ${Math.floor(y) + dy}`
  for (const point of points) cells.set(cellOf(point), [...(cells.get(cellOf(point)) ?? []), point])
  const around = [-1, 0, 1]
  return (at) => around.flatMap((dx) => around.flatMap((dy) => cells.get(cellOf(at, dx, dy)) ?? []))
}

function cuspFaults(line: Line, stitches: Stitches, { cuspAngle }: StitchSettings): string[] {
  const places = placesOf(needlesOf(stitches))
  const missed = cuspsOf(line, cuspAngle).filter(
    (cusp) => !places(cusp).some((n) => Math.hypot(n[0] - cusp[0], n[1] - cusp[1]) < SLACK),
  )
  return missed.length > stitches.mergedCusps ? [`${missed.length} cusps without a needle point`] : []
}

/** Walks a fine flattening of the line beside the stitches and measures how far each strays from its own stretch. */
function chordFaults(line: Line, stitches: Stitches, { chordTolerance }: StitchSettings): string[] {
  const fine = line.parts.flatMap((part) => flattenStroke(part.stroke, 1e-4))
  const needles = needlesOf(stitches)
  const faults: string[] = []
  const steps = fine.map((p, i) => (i > 0 ? Math.hypot(p[0] - fine[i - 1]![0], p[1] - fine[i - 1]![1]) : 0))
  // Over many metres two ways to measure drift apart by more than a stitch.
  const scale = stitches.lineMm / steps.reduce((sum, step) => sum + step, 0)
  let along = 0
  let stitch = 0
  fine.forEach((p, i) => {
    along += steps[i]! * scale
    while (stitch < stitches.count - 1 && stitches.along[stitch + 1]! < along) stitch++
    const near = [stitch - 1, stitch, stitch + 1].filter((k) => k >= 0 && k < stitches.count)
    const error = Math.min(...near.map((k) => distanceToLine(p, needles[k]!, needles[k + 1]!)))
    if (error > chordTolerance + 2e-3) faults.push(`stitch ${stitch} strays by ${error} mm`)
  })
  return faults
}

function totalFaults(line: Line, stitches: Stitches): string[] {
  const length = lengthOfLine(line)
  const summed = stitches.lengthMm / length
  const faults = Math.abs(stitches.lineMm / length - 1) < 1e-4 ? [] : [`line measured ${stitches.lineMm}`]
  return summed > 0.995 && summed <= 1 + 1e-6 ? faults : [...faults, `stitches sum to ${summed} of the line`]
}
