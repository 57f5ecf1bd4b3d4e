import { scaling } from '../../src/geometry/affine.ts'
import { distance, type Point, subtract, unit } from '../../src/geometry/point.ts'
import { endOf, transformStroke } from '../../src/geometry/stroke.ts'
import { defineCorner } from '../../src/motif/corner-contract.ts'
import { drawDoubleSpiral, endDirection, startDirection } from '../../src/motif/double-spiral.ts'
import { joint } from '../../src/motif/free-end.ts'
import { inUnit } from '../../src/motif/patch-outline.ts'

const CENTRE: Point = [0.5, 0.5]
const bearing = (p: Point): number => Math.atan2(p[1] - 0.5, p[0] - 0.5)

export default defineCorner({
  title: 'Spiral',
  source: 'a double Archimedean spiral, the ways in and out bent to the patch',
  params: {
    turns: { kind: 'count', label: 'Lines from the middle to the side', default: 5, min: 3, max: 12 },
  },
  suits: { min: 25, max: 250 },
  joints: 'smooth',
  draw: (patch, { turns }) => {
    const [entry, exit] = [inUnit(patch, patch.entry), inUnit(patch, patch.exit)]
    const spacing = 0.5 / (turns + 0.4)
    const radius = 0.5 - 0.75 * spacing
    /** The angle from a place to where a line from it touches the outermost turn. */
    const toTouch = (place: Point): number =>
      Math.acos(Math.min(1, (radius + spacing / 2) / distance(place, CENTRE))) + 0.12
    const spiral = drawDoubleSpiral({
      centre: CENTRE,
      radius,
      spacing,
      enter: bearing(entry),
      leave: bearing(exit) - 0.02,
      turn: 1,
      trimEnter: toTouch(entry),
      trimLeave: toTouch(exit),
    })
    const start = joint(
      { at: entry, along: unit(subtract(spiral.start, entry)) },
      { at: spiral.start, along: startDirection(spiral) },
    )
    const last = endOf(spiral)
    const end = joint(
      { at: last, along: endDirection(spiral) },
      { at: exit, along: unit(subtract(exit, last)) },
    )
    const whole = { start: entry, segments: [start, ...spiral.segments, end] }
    return transformStroke(whole, scaling(patch.width, patch.height))
  },
})
