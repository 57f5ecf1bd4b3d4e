import { circleColumns } from '../src/motif/circle-columns.ts'
import { defineMotif, type Edge, type Strip } from '../src/motif/contract.ts'
import type { Link } from '../src/motif/linked-spirals.ts'
import { drawSpiralCorner, drawSpiralRun, otherEdge, SEAM, turnAt } from '../src/motif/spiral-run.ts'

/** The spacing in use: the spirals of a field two circles wide can be neither finer nor coarser than this. */
const spacingFor = ({ width }: Strip, wanted: number): number =>
  Math.min(Math.max(wanted, width / 13), width / 7)

/** The circles of a strip: columns of two, begun at the edge `first`. */
const circlesOf = (strip: Strip, spacing: number, first: Edge) =>
  circleColumns({
    width: strip.width,
    margin: SEAM * spacing,
    count: 2 * strip.repeats,
    first,
    seed: strip.seed,
  })

/**
 * Which joints pass along the outside: the first, so that the line closes the strip's end, unless a lead does; and one
 * at an edge if the sense of turning would not suit the last column otherwise.
 */
function linksFor(repeats: number, leadIn: boolean, turns: 'kept' | 'changed' | 'any'): Link[] {
  const links = Array.from({ length: 4 * repeats - 1 }, (): Link => 'through')
  if (!leadIn) links[0] = 'along'
  if (turns === 'any' || turns === (leadIn ? 'kept' : 'changed')) return links
  links[leadIn || repeats === 1 ? 1 : 4 * Math.floor(repeats / 2) - 1] = 'along'
  return links
}

export default defineMotif({
  title: 'swirl',
  source: 'Archimedean spirals in and out, half a turn apart, on touching circles',
  params: {
    spacing: { kind: 'length', label: 'Distance between lines', default: { widths: 0.09 }, min: 3, max: 40 },
  },
  suits: { min: 50, max: 250 },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width) => width,
  draw: (strip, values) => {
    const spacing = spacingFor(strip, values.spacing)
    const leadOut = strip.from !== strip.to
    const links = linksFor(strip.repeats, false, leadOut ? 'any' : 'kept')
    if (!leadOut) links[links.length - 1] = 'along'
    const circles = circlesOf(strip, spacing, strip.from)
    return drawSpiralRun({ strip, spacing, circles, links, first: strip.from, leadOut })
  },
  drawToMitre: (strip, values) => {
    const spacing = spacingFor(strip, values.spacing)
    const first = otherEdge(strip.to)
    const wanted = strip.to === 'outer' ? 'any' : turnAt(first) === 1 ? 'kept' : 'changed'
    const links = linksFor(strip.repeats, strip.from !== first, wanted)
    const circles = circlesOf(strip, spacing, first)
    return drawSpiralCorner({ strip, spacing, circles, links, first, leadOut: false }, 2)
  },
})
