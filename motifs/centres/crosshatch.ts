import { defineCentre } from '../../src/motif/centre-contract.ts'
import { fillAsStrip } from '../../src/motif/centre-strip.ts'
import { outlineHatch } from '../../src/motif/outline-hatch.ts'
import crosshatch from '../crosshatch.ts'

export default defineCentre({
  title: 'Crosshatch',
  source: crosshatch.source,
  params: {
    spacing: { ...crosshatch.params.spacing, default: 30 },
  },
  closeness: 'spacing',
  suitsFrom: 60,
  ports: 'corners',
  joints: 'cusped',
  fill: (area, values) => fillAsStrip(crosshatch, area, values),
  fillOutline: ({ outline }, { spacing }) => outlineHatch(outline, spacing),
})
