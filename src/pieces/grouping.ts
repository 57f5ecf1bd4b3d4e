import { nearestOfParity, type Rhythm } from '../motif/fit.ts'

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

/** How much a further stretch weighs against a nicer fit of the repeats: one more must gain this share of stretching. */
const STRETCH_WEIGHT = 0.04

/**
 * Into how many stretches half a side is cut: each fits the reach and holds half a repeat of every band. One or two more
 * are taken where whole repeats then fit clearly better.
 *
 * @param half  length of half the outermost seam, mm
 * @param bands  each band's rhythm and the mean length of half its side, mm
 */
export function stretchesFor(
  half: number,
  reachAlong: number,
  bands: readonly { rhythm: Rhythm; length: number }[],
): number {
  const wanted = Math.max(1, Math.ceil(half / reachAlong - 1e-9))
  const roomiest = bands.map(
    ({ rhythm, length }) => length / (rhythm.ends === 'alternate' ? rhythm.repeat / 2 : rhythm.repeat),
  )
  const most = Math.max(1, Math.floor(Math.min(...roomiest)))
  const candidates = [0, 1, 2].map((more) => Math.min(most, wanted + more))
  const cost = (stretches: number) => misfit(bands, stretches) + STRETCH_WEIGHT * (stretches - wanted)
  return candidates.reduce((best, stretches) => (cost(stretches) < cost(best) - 1e-12 ? stretches : best))
}

/** The worst stretching of any band, as the logarithm of a ratio. */
function misfit(bands: readonly { rhythm: Rhythm; length: number }[], stretches: number): number {
  const each = bands.map(({ rhythm, length }) => {
    if (rhythm.ends === 'free') return 0
    const ideal = (2 * length) / rhythm.repeat
    return Math.abs(Math.log(nearestOfParity(ideal, stretches) / ideal))
  })
  return Math.max(0, ...each)
}
