import type { Point } from '../../geometry/point.ts'
import type { Shape } from './shape.ts'

/** The shapes moved by `by`. */
export function shifted(shapes: readonly Shape[], by: Point): Shape[] {
  return shapes.map((shape) => shiftedShape(shape, by))
}

function shiftedShape(shape: Shape, by: Point): Shape {
  const move = ([x, y]: Point): Point => [x + by[0], y + by[1]]
  switch (shape.kind) {
    case 'lines':
      return { ...shape, polylines: shape.polylines.map((points) => points.map(move)) }
    case 'area':
      return { ...shape, points: shape.points.map(move) }
    case 'disc':
      return { ...shape, centre: move(shape.centre) }
    case 'text':
      return { ...shape, at: move(shape.at) }
    case 'layer':
      return { ...shape, shapes: shifted(shape.shapes, by) }
    case 'clip': {
      const { minX, minY, maxX, maxY } = shape.box
      const box = { minX: minX + by[0], minY: minY + by[1], maxX: maxX + by[0], maxY: maxY + by[1] }
      return { ...shape, box, shapes: shifted(shape.shapes, by) }
    }
  }
}
