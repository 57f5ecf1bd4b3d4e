import type { Rhythm } from '../motif/fit.ts'

/** A run of neighbouring filled bands that is stitched together, area by area. */
export interface Group {
  /** Index of its innermost band. */
  readonly first: number
  /** How many bands: odd, so that there-and-back ends on the far side of each area. */
  readonly count: number
}

/** What the grouping needs to know of a band. */
export interface BandExtent {
  /** Undefined for a band that is left unquilted. */
  readonly rhythm: Rhythm | undefined
  /** Greatest finished width, mm. */
  readonly depth: number
  /** Length round its outer seam, mm. */
  readonly perimeter: number
}

/**
 * Splits the filled bands into runs of an odd number of neighbours, each no deeper than the reach where that can be, so
 * that the quilt is moved as seldom as possible: the fewest areas, each as long as the reach.
 *
 * Post-condition: every filled band is in exactly one group; groups come from the inside out.
 */
export function groupBands(
  bands: readonly BandExtent[],
  reach: { readonly along: number; readonly deep: number },
): Group[] {
  const groups: Group[] = []
  let first = 0
  while (first < bands.length) {
    if (!bands[first]!.rhythm) {
      first++
      continue
    }
    let end = first
    while (end < bands.length && bands[end]!.rhythm) end++
    groups.push(...splitRun(bands.slice(first, end), reach).map((g) => ({ ...g, first: g.first + first })))
    first = end
  }
  return groups
}

/** The cheapest split of a run by dynamic programming over where its last group begins. */
function splitRun(run: readonly BandExtent[], reach: { along: number; deep: number }): Group[] {
  const best: { cost: number; groups: Group[] }[] = [{ cost: 0, groups: [] }]
  for (let end = 1; end <= run.length; end++) {
    let least = { cost: Number.POSITIVE_INFINITY, groups: [] as Group[] }
    for (let count = 1; count <= end; count += 2) {
      const before = best[end - count]!
      const cost = before.cost + areasOf(run.slice(end - count, end), reach)
      if (cost < least.cost) least = { cost, groups: [...before.groups, { first: end - count, count }] }
    }
    best.push(least)
  }
  return best[run.length]!.groups
}

/** How many times the quilt is moved to stitch these bands together; a part deeper than the reach takes several goes. */
function areasOf(bands: readonly BandExtent[], reach: { along: number; deep: number }): number {
  const depth = bands.reduce((sum, band) => sum + band.depth, 0)
  const goes = bands.length === 1 ? 1 : Math.max(1, depth / reach.deep) ** 3
  return (bands.at(-1)!.perimeter / reach.along) * goes
}

/** Into how many stretches half a side of `length` mm is cut so that each fits the reach and holds half a repeat. */
export function stretchesFor(length: number, reachAlong: number, rhythms: readonly Rhythm[]): number {
  const wanted = Math.max(1, Math.ceil(length / reachAlong - 1e-9))
  const roomiest = rhythms.map((r) => (r.ends === 'alternate' ? (2 * length) / r.repeat : length / r.repeat))
  return Math.max(1, Math.min(wanted, Math.floor(Math.min(...roomiest))))
}
