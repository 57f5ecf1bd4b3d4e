import { defineCentre } from '../../src/motif/centre-contract.ts'
import { fillAsStrip } from '../../src/motif/centre-strip.ts'
import clamshell from '../clamshell.ts'

export default defineCentre({
  title: 'Clamshell',
  source: clamshell.source,
  params: {
    size: { ...clamshell.params.size, default: 50 },
  },
  closeness: 'size',
  suitsFrom: 60,
  ports: 'corners',
  joints: 'cusped',
  fill: (area, values) => fillAsStrip(clamshell, area, values),
})
