import { definePatchFiller } from './contract.ts'
import { ARM_SPACING, cornersAcross, openEnded, spiralAcross } from './double-spiral.ts'
import { distinctPoints, smoothStroke } from './smooth-stroke.ts'

export default definePatchFiller({
  title: 'Spiral',
  source: 'Archimedean spiral with two arms, its radius measured from the patch’s edge',
  params: { spacing: ARM_SPACING },
  closeness: 'spacing',
  ditch: false,
  leadsTo: cornersAcross,
  draw(corners, { spacing }) {
    const { places, view, last } = spiralAcross(corners, spacing)
    const points = openEnded(places).map(({ angle, depth }) => view.roundedAt(angle, depth))
    return [smoothStroke(distinctPoints([corners[0]!, ...points, corners[last]!]))]
  },
})
