import type { Point } from '../../geometry/point.ts'
import type { Box } from '../../geometry/stroke.ts'
import { simplifyPoints } from '../path/simplify.ts'
import { boxShape, type Shape, textShape } from '../shape/shape.ts'
import type { BoxedLine } from './cut-line.ts'
import { GREY, GUIDE } from './look.ts'
import type { Paper } from './paper.ts'
import { type SheetPlan, sheetNames } from './sheet-plan.ts'
import { ownOf, placesOf, sheetName, showsOf, type Tiling } from './tiling.ts'
import type { Tracing } from './tracing.ts'

/** The whole in small, with the sheets' own parts and names over it, as large as fits into `room`. */
export function pageMap(tracing: Tracing, plan: SheetPlan, room: Paper): Shape[] {
  const whole = wholeOf(plan.tiling)
  const scale = Math.min(room.width / (whole.maxX - whole.minX), room.height / (whole.maxY - whole.minY))
  const place = ([x, y]: Point): Point => [(x - whole.minX) * scale, (y - whole.minY) * scale]
  const small = (lines: readonly BoxedLine[]) =>
    lines.map(({ points }) => simplifyPoints(points, 0.1 / scale, []).map(place))
  return [
    ...cells(plan, place, scale).map(({ box, isPrinted }) =>
      boxShape(box, { fill: isPrinted ? '#ffffff' : '#e6e6e6' }),
    ),
    { kind: 'lines', polylines: small(tracing.seams), pen: { colour: '#b0b0b0', width: 0.15 } },
    { kind: 'lines', polylines: small(tracing.lines), pen: { colour: '#555555', width: 0.15 } },
    ...cells(plan, place, scale).flatMap(cellShapes),
  ]
}

function wholeOf(tiling: Tiling): Box {
  const first = showsOf(tiling, { row: 0, column: 0 })
  const last = showsOf(tiling, { row: tiling.rows - 1, column: tiling.columns - 1 })
  return { minX: first.minX, minY: first.minY, maxX: last.maxX, maxY: last.maxY }
}

interface Cell {
  readonly box: Box
  readonly name: string
  readonly isPrinted: boolean
  readonly size: number
}

function cells(plan: SheetPlan, place: (p: Point) => Point, scale: number): Cell[] {
  const printed = sheetNames(plan)
  return placesOf(plan.tiling).map((at) => {
    const own = ownOf(plan.tiling, at)
    const [minX, minY] = place([own.minX, own.minY])
    const [maxX, maxY] = place([own.maxX, own.maxY])
    const name = sheetName(at)
    const size = Math.min(5, Math.max(2, scale * Math.min(own.maxX - own.minX, own.maxY - own.minY) * 0.35))
    return { box: { minX, minY, maxX, maxY }, name, isPrinted: printed.has(name), size }
  })
}

function cellShapes({ box, name, isPrinted, size }: Cell): Shape[] {
  const frame = boxShape(box, { pen: { colour: isPrinted ? GUIDE : GREY, width: 0.25 } })
  if (!isPrinted) return [frame]
  const middle: Point = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]
  const style = { size, anchor: 'middle', weight: 'bold', colour: GUIDE } as const
  const plate = {
    minX: middle[0] - size * 0.95,
    maxX: middle[0] + size * 0.95,
    minY: middle[1] - size * 0.62,
    maxY: middle[1] + size * 0.62,
  }
  return [
    frame,
    boxShape(plate, { fill: '#ffffff' }),
    textShape([middle[0], middle[1] + size * 0.36], name, style),
  ]
}
