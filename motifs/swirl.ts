import { drawLeaning, STEEP } from '../src/motif/bend.ts'
import { circleColumns } from '../src/motif/circle-columns.ts'
import { type Drawn, defineMotif, type Edge, type MitreStrip, type Strip } from '../src/motif/contract.ts'
import type { Link } from '../src/motif/linked-spirals.ts'
import { drawSpiralCorner, drawSpiralRun, otherEdge, SEAM, turnAt } from '../src/motif/spiral-run.ts'

/** The width, in spacings, that a pair of spirals one above the other fills well, at most, and at least. */
const PAIR = { best: 11, least: 7, most: 13 }
/** The most pairs that stand one above the other. */
const PAIRS = 3
/** How far the columns of a taller stack stay apart, in spacings. */
const APART = 0.5

/** A stretch as much too long shows so much more than one too short. */
const GAPS_SHOW = 0.9

/** How many pairs stand one above the other, and the spacing in use: no coarser or finer than they can be. */
function layoutFor(width: number, wanted: number): { pairs: number; spacing: number } {
  const spacing = Math.min(Math.max(wanted, width / PAIR.most / PAIRS), width / PAIR.least)
  return { spacing, pairs: Math.min(PAIRS, Math.max(1, Math.round(width / spacing / PAIR.best))) }
}

function repeatFor(width: number, wanted: number): number {
  const { pairs, spacing } = layoutFor(width, wanted)
  return width / pairs + (pairs > 1 ? 2 * APART * spacing : 0)
}

/** With as many repeats as fit before the corner's own spirals, no more than asked for. */
function withoutCorner(strip: MitreStrip, repeat: number): MitreStrip {
  const wanted = strip.length / repeat
  const below = Math.max(1, Math.floor(wanted))
  // The smaller stretch wins, measured as a ratio; gaps show sooner than smaller spirals.
  const repeats = wanted < GAPS_SHOW * Math.sqrt(below * (below + 1)) ? below : below + 1
  return { ...strip, repeats: Math.min(strip.repeats, repeats) }
}

/**
 * Which joints pass along the outside: the first, so that the line closes the strip's end, unless a lead does; and one
 * at an edge if the sense of turning would not suit the last column otherwise.
 *
 * @param stack  circles in a column
 */
function linksFor(
  { repeats }: Strip,
  stack: number,
  turns: { readonly leadIn: boolean; readonly wanted: 'kept' | 'changed' | 'any' },
): Link[] {
  const links = Array.from({ length: 2 * repeats * stack - 1 }, (): Link => 'through')
  if (!turns.leadIn) links[0] = 'along'
  if (turns.wanted === 'any' || turns.wanted === (turns.leadIn ? 'kept' : 'changed')) return links
  const before = turns.leadIn || repeats === 1 ? 1 : 2 * Math.floor(repeats / 2)
  const inColumn = !turns.leadIn && repeats === 1 && stack > 2
  links[inColumn ? 1 : before * stack - 1] = 'along'
  return links
}

/** The strip's layout: its circles, from a first column begun at the edge `first`, and the spacing. */
function layOut(strip: Strip, wanted: number, first: Edge) {
  const { pairs, spacing } = layoutFor(strip.width, wanted)
  const { width, repeats, seed } = strip
  const [margin, apart] = [SEAM * spacing, pairs > 1 ? APART * spacing : 0]
  const circles = circleColumns({ width, margin, apart, count: 2 * repeats, pairs, first, seed })
  return { circles, spacing, stack: 2 * pairs }
}

function drawStraight(strip: Strip, values: { readonly spacing: number }): Drawn {
  const first = strip.from
  const leadOut = strip.from !== strip.to
  const { stack, ...layout } = layOut(strip, values.spacing, first)
  const links = linksFor(strip, stack, { leadIn: false, wanted: leadOut ? 'any' : 'kept' })
  if (!leadOut) links[links.length - 1] = 'along'
  return drawSpiralRun({ strip, ...layout, links, first, leadOut })
}

export default defineMotif({
  title: 'Swirl',
  source: 'Archimedean spirals in and out, half a turn apart, on touching circles',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: { widths: 0.09 }, min: 3, max: 40 },
  },
  closeness: 'spacing',
  suits: { min: 50, max: 250 },
  ends: 'free',
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, values) => repeatFor(width, values.spacing),
  draw: drawStraight,
  drawToMitre: (whole, values) => {
    const strip = withoutCorner(whole, repeatFor(whole.width, values.spacing))
    const { pairs } = layoutFor(strip.width, values.spacing)
    // A corner of its own would be coarser than stacks of small spirals.
    if (whole.skew < STEEP || pairs > 1)
      return drawLeaning(whole, (straight) => drawStraight(straight, values))
    const first = otherEdge(strip.to)
    const { stack, ...layout } = layOut(strip, values.spacing, first)
    const wanted = strip.to === 'outer' || turnAt(first) === 1 ? 'kept' : 'changed'
    const links = linksFor(strip, stack, { leadIn: strip.from !== first, wanted })
    const drawn = drawSpiralCorner({ strip, ...layout, links, first, leadOut: false }, stack)
    const middle = strip.length + (strip.skew * strip.width) / 2
    return { ...drawn, repeats: (strip.repeats * middle) / strip.length }
  },
})
