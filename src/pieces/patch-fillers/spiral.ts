import { definePatchFiller } from './contract.ts'
import { ARM_SPACING, cornersAcross, doubleSpiral, openEnded } from './double-spiral.ts'
import { incircle, PatchView } from './patch-shape.ts'
import { distinctPoints, smoothStroke } from './smooth-stroke.ts'

export default definePatchFiller({
  title: 'Spiral',
  source: 'Archimedean spiral with two arms, its radius measured from the patch’s edge',
  params: { spacing: ARM_SPACING },
  closeness: 'spacing',
  ditch: false,
  leadsTo: cornersAcross,
  draw(corners, { spacing }) {
    const { middle, radius } = incircle(corners)
    const view = new PatchView(middle, corners)
    const angles = corners.map((p) => view.angleOf(p))
    const last = cornersAcross(corners)[0]!
    const places = openEnded(doubleSpiral({ radius, spacing }, { enter: angles[0]!, leave: angles[last]! }))
    const points = places.map(({ angle, depth }) => view.roundedAt(angle, depth))
    return [smoothStroke(distinctPoints([corners[0]!, ...points, corners[last]!]))]
  },
})
