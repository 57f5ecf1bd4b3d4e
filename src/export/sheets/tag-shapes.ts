import { add, type Point, scale } from '../../geometry/point.ts'
import { arrowHead, boxShape, type Shape, textShape } from '../shape/shape.ts'
import { textWidth } from '../shape/text-width.ts'
import { GUIDE, PENS } from './look.ts'
import type { Arrow, Tag } from './tracing.ts'

/** An arrow head on the line, its middle on the place. */
export const arrowShape = ({ at, along }: Arrow, size = 3.2): Shape =>
  arrowHead(add(at, scale(along, size / 2)), along, { size, fill: GUIDE })

/** A tag beside the line, on its left as one goes along. */
export function tagShapes(tag: Tag): Shape[] {
  if (tag.look === 'tick') return tickShapes(tag)
  const left: Point = [tag.along[1], -tag.along[0]]
  return tag.look === 'number' ? numberShapes(tag, left) : flagShapes(tag, left)
}

function numberShapes({ at, text }: Tag, left: Point): Shape[] {
  const centre = add(at, scale(left, 6))
  return [
    { kind: 'lines', polylines: [[at, add(at, scale(left, 3))]], pen: PENS.mark },
    { kind: 'disc', centre, radius: 3.2, fill: '#ffffff', pen: { ...PENS.mark, width: 0.4 } },
    textShape([centre[0], centre[1] + 1.35], text, {
      size: 3.8,
      anchor: 'middle',
      weight: 'bold',
      colour: GUIDE,
    }),
  ]
}

/** A white box with words on the other side of the line, so that it leaves room for an area's number. */
function flagShapes({ at, text }: Tag, left: Point): Shape[] {
  const style = { size: 3.2, weight: 'bold' } as const
  const half = textWidth(text, style) / 2 + 1.2
  const away = Math.abs(left[0]) * half + Math.abs(left[1]) * 2.4 + 3
  const centre = add(at, scale(left, -away))
  const box = { minX: centre[0] - half, maxX: centre[0] + half, minY: centre[1] - 2.4, maxY: centre[1] + 2.4 }
  return [
    { kind: 'disc', centre: at, radius: 1.1, fill: '#ffffff', pen: { ...PENS.mark, width: 0.4 } },
    boxShape(box, { fill: '#ffffff', pen: PENS.mark }),
    textShape([centre[0], centre[1] + 1.15], text, { ...style, anchor: 'middle', colour: GUIDE }),
  ]
}

function tickShapes({ at, text }: Tag): Shape[] {
  return [
    {
      kind: 'lines',
      polylines: [
        [
          [at[0], at[1] - 3],
          [at[0], at[1] + 3],
        ],
      ],
      pen: { ...PENS.mark, width: 0.4 },
    },
    textShape([at[0] + 1.2, at[1] - 1.6], text, { size: 2.8, colour: GUIDE }),
  ]
}
