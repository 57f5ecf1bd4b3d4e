import { StrokeBuilder } from '../../geometry/stroke.ts'
import { definePatchFiller } from './contract.ts'
import { cornerAngles, edgesOf, incircle } from './patch-shape.ts'

/** Arcs of one corner keep this part of the half angle, so that they part from each other at once. */
const PARTING = 0.8
/** Arcs from opposite edges keep this part of the way to the middle. */
const FACING = 0.8

export default definePatchFiller({
  title: 'Orange peel',
  source: 'circular arc on a chord: intersecting chords, Euclid III.35; common practice',
  params: {
    rise: { kind: 'ratio', label: 'Rise of an arc over its edge', default: 0.17, min: 0.04, max: 0.2 },
  },
  ditch: false,
  draw(corners, { rise }) {
    const angles = cornerAngles(corners)
    const { radius } = incircle(corners)
    return edgesOf(corners).map(({ from, to, length }, i) => {
      const narrower = Math.min(angles[i]!, angles[(i + 1) % angles.length]!)
      // An arc of rise h over chord c leaves it at the angle 2 atan(2h / c).
      const parting = (length / 2) * Math.tan((PARTING * narrower) / 4)
      const height = Math.min(rise * length, parting, FACING * radius)
      // Clockwise on the screen the inside lies to the right of travel.
      return new StrokeBuilder(from).arcTo(to, -height).build()
    })
  },
})
