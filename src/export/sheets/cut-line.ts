import { lerp, type Point } from '../../geometry/point.ts'
import { type Box, boundsOf } from '../../geometry/stroke.ts'

/** Points looked at together when a line is cut. */
const BLOCK = 64

/** A polyline with a box round every block of its points, so that far blocks are passed over at once. */
export interface BoxedLine {
  readonly points: readonly Point[]
  readonly boxes: readonly Box[]
}

/** The polyline with its blocks' boxes. */
export function boxedLine(points: readonly Point[]): BoxedLine {
  const boxes: Box[] = []
  for (let i = 0; i < points.length - 1; i += BLOCK) boxes.push(boundsOf(points.slice(i, i + BLOCK + 1)))
  return { points, boxes }
}

const boxesMeet = (a: Box, b: Box): boolean =>
  a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY

/** The stretches of the line that lie inside `box`. */
export function cutLine(line: BoxedLine, box: Box): Point[][] {
  const cut: Point[][] = []
  let end: Point | undefined
  line.boxes.forEach((around, block) => {
    if (!boxesMeet(around, box)) return
    const last = Math.min((block + 1) * BLOCK, line.points.length - 1)
    for (let i = block * BLOCK; i < last; i++) {
      const inside = cutSegment(line.points[i]!, line.points[i + 1]!, box)
      if (!inside) continue
      if (inside[0] === end) cut.at(-1)!.push(inside[1])
      else cut.push([...inside])
      end = inside[1]
    }
  })
  return cut
}

/** Whether any of the line lies inside `box`. */
export function isLineIn(line: BoxedLine, box: Box): boolean {
  return line.boxes.some((around, block) => {
    if (!boxesMeet(around, box)) return false
    const last = Math.min((block + 1) * BLOCK, line.points.length - 1)
    for (let i = block * BLOCK; i < last; i++)
      if (cutSegment(line.points[i]!, line.points[i + 1]!, box)) return true
    return false
  })
}

/** The part of a segment inside a box; its ends are the very points given where they lie inside. @source Liang, Barsky 1984 */
function cutSegment(a: Point, b: Point, box: Box): [Point, Point] | undefined {
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  let t0 = 0
  let t1 = 1
  for (let edge = 0; edge < 4; edge++) {
    const p = edge === 0 ? -dx : edge === 1 ? dx : edge === 2 ? -dy : dy
    const q =
      edge === 0
        ? a[0] - box.minX
        : edge === 1
          ? box.maxX - a[0]
          : edge === 2
            ? a[1] - box.minY
            : box.maxY - a[1]
    if (p === 0 && q < 0) return undefined
    if (p < 0) t0 = Math.max(t0, q / p)
    if (p > 0) t1 = Math.min(t1, q / p)
  }
  if (t0 > t1 || (t0 === t1 && (dx !== 0 || dy !== 0))) return undefined
  return [t0 === 0 ? a : lerp(a, b, t0), t1 === 1 ? b : lerp(a, b, t1)]
}
