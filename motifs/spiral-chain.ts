import { drawLeaning, STEEP } from '../src/motif/bend.ts'
import type { Circle } from '../src/motif/circle-columns.ts'
import { type Drawn, defineMotif, type Edge, type Strip } from '../src/motif/contract.ts'
import type { Link } from '../src/motif/linked-spirals.ts'
import { drawSpiralCorner, drawSpiralRun, otherEdge, SEAM } from '../src/motif/spiral-run.ts'

/** The spacing in use: a spiral as wide as the strip can be neither finer nor coarser than this. */
const spacingFor = (width: number, wanted: number): number =>
  Math.min(Math.max(wanted, width / 12), width / 4)

/** A row of equal circles across the whole width. */
function row(strip: Strip, spacing: number): Circle[] {
  const radius = strip.width / 2 - SEAM * spacing
  const apart = 2 * radius + 0.3 * spacing
  return Array.from({ length: strip.repeats }, (_, i) => ({ centre: [i * apart, strip.width / 2], radius }))
}

/** The line runs along the edges, now the one, now the other. */
const scrolls = (strip: Strip): Link[] => Array.from({ length: strip.repeats - 1 }, () => 'along' as const)

/** The edge that a chain begun along `first` ends on. */
const lastEdge = (strip: Strip, first: Edge): Edge => (strip.repeats % 2 === 1 ? otherEdge(first) : first)

function drawStraight(strip: Strip, values: { readonly spacing: number }): Drawn {
  const spacing = spacingFor(strip.width, values.spacing)
  const leadOut = lastEdge(strip, strip.from) !== strip.to
  const run = { strip, spacing, circles: row(strip, spacing), links: scrolls(strip), first: strip.from }
  return drawSpiralRun({ ...run, leadOut })
}

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
  draw: drawStraight,
  drawToMitre: (strip, values) => {
    if (strip.skew < STEEP) return drawLeaning(strip, (straight) => drawStraight(straight, values))
    const spacing = spacingFor(strip.width, values.spacing)
    const first = lastEdge(strip, 'inner') === 'outer' ? 'inner' : 'outer'
    const run = { strip, spacing, circles: row(strip, spacing), links: scrolls(strip), first } as const
    return drawSpiralCorner({ ...run, leadOut: false }, 1)
  },
})
