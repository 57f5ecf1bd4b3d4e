import { add, type Point, scale, subtract } from '../geometry/point.ts'
import { cubic, line, type Segment } from '../geometry/segment.ts'
import type { Stroke } from '../geometry/stroke.ts'
import { refuseDrawing } from './drawing-fault.ts'
import { DRAWING_LIMITS } from './drawing-limits.ts'
import { ellipticArc } from './elliptic-arc.ts'
import { PathScanner } from './path-scanner.ts'

/** A part of a path that is drawn without lifting the pen. */
export interface Subpath {
  readonly stroke: Stroke
  readonly isClosed: boolean
  /** Where it begins in the text. */
  readonly offset: number
}

/** Where the pen is while a path is read. */
interface Pen {
  at: Point
  start: Point
  /** The last handle of the curve before, which a smooth curve reflects; undefined after anything else. */
  cubicHandle: Point | undefined
  quadraticHandle: Point | undefined
}

/** How many numbers a command takes, by its small letter. */
const COUNTS: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  a: 7,
  z: 0,
}

/**
 * Reads SVG path data: lines and curves; quadratic curves and arcs become cubics.
 *
 * @throws DrawingRefusal `drawing/path-data` at the first character that is no path data, `drawing/too-many-points`
 * @source SVG 2, 9.3 path data, and B.2 for arcs
 */
export function readPath(data: string): Subpath[] {
  const scanner = new PathScanner(data)
  const pen: Pen = { at: [0, 0], start: [0, 0], cubicHandle: undefined, quadraticHandle: undefined }
  const subpaths: { stroke: { start: Point; segments: Segment[] }; isClosed: boolean; offset: number }[] = []
  let count = 0
  for (let command = scanner.command(); command; command = scanner.command()) {
    const { letter, offset } = command
    const kind = letter.toLowerCase()
    if (subpaths.length === 0 && kind !== 'm')
      refuseDrawing('path-data', `the path begins with ${letter}; it must begin with M`, { offset })
    let isFirst = true
    do {
      const isMove = kind === 'm' && isFirst
      const given = scanner.numbers(COUNTS[kind]!, kind === 'a')
      const from = pen.at
      const origin: Point = letter === kind ? from : [0, 0]
      if (isMove || (subpaths.at(-1)!.isClosed && kind !== 'z')) {
        if (isMove) pen.at = pen.start = add(origin, given as unknown as Point)
        subpaths.push({
          stroke: { start: isMove ? pen.at : pen.start, segments: [] },
          isClosed: false,
          offset,
        })
      }
      const current = subpaths.at(-1)!
      if (kind === 'z') {
        current.isClosed = true
        moveTo(pen, pen.start)
      } else if (!isMove) {
        const segments = SEGMENTS[kind]!(given, origin, pen)
        current.stroke.segments.push(...segments)
        count += segments.length
      }
      if (isMove) forget(pen)
      if (count > DRAWING_LIMITS.segments)
        refuseDrawing(
          'too-many-points',
          `the path has more than ${DRAWING_LIMITS.segments} lines and curves`,
          { hint: 'simplify it: a repeat needs a few dozen', offset },
        )
      isFirst = false
    } while (COUNTS[kind]! > 0 && scanner.hasNumber())
  }
  return subpaths
}

function forget(pen: Pen): void {
  pen.cubicHandle = undefined
  pen.quadraticHandle = undefined
}

function moveTo(pen: Pen, to: Point): void {
  forget(pen)
  pen.at = to
}

const point = (given: readonly number[], index: number, origin: Point): Point => [
  origin[0] + given[index]!,
  origin[1] + given[index + 1]!,
]

type ReadSegments = (given: readonly number[], origin: Point, pen: Pen) => Segment[]

const straight = (pen: Pen, to: Point): Segment[] => {
  moveTo(pen, to)
  return [line(to)]
}

const curve = (pen: Pen, [c1, c2, to]: readonly [Point, Point, Point]): Segment[] => {
  moveTo(pen, to)
  pen.cubicHandle = c2
  return [cubic(c1, c2, to)]
}

/** @source a quadratic curve is the cubic whose handles lie two thirds of the way to its handle */
const quadratic = (pen: Pen, handle: Point, to: Point): Segment[] => {
  const towards = (end: Point) => add(end, scale(subtract(handle, end), 2 / 3))
  const segment = cubic(towards(pen.at), towards(to), to)
  moveTo(pen, to)
  pen.quadraticHandle = handle
  return [segment]
}

const reflected = (pen: Pen, handle: Point | undefined): Point =>
  handle ? subtract(scale(pen.at, 2), handle) : pen.at

const SEGMENTS: Readonly<Record<string, ReadSegments>> = {
  m: (given, origin, pen) => straight(pen, point(given, 0, origin)),
  l: (given, origin, pen) => straight(pen, point(given, 0, origin)),
  h: (given, origin, pen) => straight(pen, [origin[0] + given[0]!, pen.at[1]]),
  v: (given, origin, pen) => straight(pen, [pen.at[0], origin[1] + given[0]!]),
  c: (given, origin, pen) =>
    curve(pen, [point(given, 0, origin), point(given, 2, origin), point(given, 4, origin)]),
  s: (given, origin, pen) =>
    curve(pen, [reflected(pen, pen.cubicHandle), point(given, 0, origin), point(given, 2, origin)]),
  q: (given, origin, pen) => quadratic(pen, point(given, 0, origin), point(given, 2, origin)),
  t: (given, origin, pen) => quadratic(pen, reflected(pen, pen.quadraticHandle), point(given, 0, origin)),
  a: (given, origin, pen) => {
    const from = pen.at
    const to = point(given, 5, origin)
    moveTo(pen, to)
    const [rx, ry, turn, isLarge, isClockwise] = given as [number, number, number, number, number]
    return ellipticArc(from, to, {
      radii: [rx, ry],
      turn: (turn * Math.PI) / 180,
      isLarge: isLarge === 1,
      isClockwise: isClockwise === 1,
    })
  },
}
