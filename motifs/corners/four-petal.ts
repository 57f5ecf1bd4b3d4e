import { scaling } from '../../src/geometry/affine.ts'
import type { Point } from '../../src/geometry/point.ts'
import { StrokeBuilder, transformStroke } from '../../src/geometry/stroke.ts'
import { defineCorner } from '../../src/motif/corner-contract.ts'
import { alongOutline, inUnit, UNIT_CORNERS, wayRound } from '../../src/motif/patch-outline.ts'

const CENTRE: Point = [0.5, 0.5]
/** Along the outline from place to place, bowed inward so that nothing lies in the seam. */
function bowAlong(builder: StrokeBuilder, places: readonly Point[], bow: number): void {
  for (const to of places.slice(1)) {
    const [u, v] = builder.at
    const length = Math.hypot(to[0] - u, to[1] - v)
    const inner = (to[0] - u) * (0.5 - v) - (to[1] - v) * (0.5 - u)
    builder.arcTo(to, (inner > 0 ? -bow : bow) * length)
  }
}

export default defineCorner({
  title: 'Four petals',
  source: 'four lenses from the middle to the corners, each of two circular arcs',
  params: {
    breadth: {
      kind: 'ratio',
      label: 'Breadth of a petal for its length',
      default: 0.36,
      min: 0.15,
      max: 0.41,
    },
  },
  suits: { min: 25, max: 200 },
  joints: 'cusped',
  draw: (patch, { breadth }) => {
    const [entry, exit] = [wayRound(inUnit(patch, patch.entry)), wayRound(inUnit(patch, patch.exit))]
    const first = Math.round(entry) % 4
    // half way between the side and the petal that leaves its corner
    const bow = Math.tan((Math.PI / 4 - 2 * Math.atan(breadth)) / 4) / 2
    const builder = new StrokeBuilder(inUnit(patch, patch.entry))
    bowAlong(builder, alongOutline(entry, first), bow / 2)
    const rise = (breadth / 2) * Math.SQRT1_2
    builder.arcTo(CENTRE, rise)
    for (const step of [2, 1, 3]) {
      builder.arcTo(UNIT_CORNERS[(first + step) % 4]!, -rise)
      builder.arcTo(CENTRE, -rise)
    }
    builder.arcTo(UNIT_CORNERS[first]!, rise)
    // Out at the opposite corner it runs along the veins of two petals, so that the patch is alike on both sides of them.
    const isOpposite = Math.abs(exit - ((first + 2) % 4)) < 1e-9
    if (isOpposite) builder.lineTo(UNIT_CORNERS[(first + 2) % 4]!)
    else bowAlong(builder, alongOutline(first, exit), 1.5 * bow)
    return transformStroke(builder.build(), scaling(patch.width, patch.height))
  },
})
