import { defineMotif } from '../src/motif/contract.ts'
import { drawSpiralRow, drawSpiralRowToMitre } from '../src/motif/spiral-row.ts'

/** The spacing in use: a spiral as wide as the strip can be neither finer nor coarser than this. */
const spacingFor = (width: number, wanted: number): number =>
  Math.min(Math.max(wanted, width / 12), width / 4)

export default defineMotif({
  title: 'Spiral chain',
  source: 'running scroll: equal double Archimedean spirals, the line passing over one and under the next',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: { widths: 0.12 }, min: 3, max: 40 },
  },
  closeness: 'spacing',
  suits: { min: 25, max: 150 },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, values) => width - spacingFor(width, values.spacing) / 2,
  draw: (strip, { spacing }) => drawSpiralRow(strip, spacingFor(strip.width, spacing)),
  drawToMitre: (strip, { spacing }) => drawSpiralRowToMitre(strip, spacingFor(strip.width, spacing)),
})
