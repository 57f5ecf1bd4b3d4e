import { nearestOfParity, type Rhythm } from '../motif/fit.ts'

/** A run of neighbouring filled bands that is stitched together, area by area. */
export interface Group {
  /** Index of its innermost band that a filler runs along. */
  readonly first: number
  /**
   * How many such bands: with a pieced one that leads round an odd number, so that there-and-back ends on the far side of
   * each area; none in a pieced band alone.
   */
  readonly count: number
  /** Indices of the bands beside them that are filled patch by patch in the same areas. */
  readonly pieced: readonly number[]
}

/** What the grouping needs to know of a band. */
export interface BandExtent {
  /** Undefined for a band that no filler runs along. */
  readonly rhythm: Rhythm | undefined
  /** Filled patch by patch. */
  readonly pieced: boolean
  /** Greatest finished width, mm. */
  readonly depth: number
  /** Length round its outer seam, mm. */
  readonly perimeter: number
  /** The thread that it is stitched with, where there are several: a group has one. */
  readonly thread?: string | undefined
  /** Over this part of the way round its patches lead from one to the next, as a lane of their own. */
  readonly round?: number
}

const isFilled = (band: BandExtent): boolean => band.rhythm !== undefined || band.pieced

/**
 * Splits the filled bands into runs of neighbours so that the quilt is moved as seldom as possible. Bands that a filler
 * runs along lie side by side in a run, pieced ones on either side of them; without any they are odd in number.
 *
 * Post-condition: every filled band is in exactly one group; groups come from the inside out.
 */
export function groupBands(bands: readonly BandExtent[], counts: MoveCounts): Group[] {
  const groups: Group[] = []
  let first = 0
  while (first < bands.length) {
    if (!isFilled(bands[first]!)) {
      first++
      continue
    }
    let end = first
    while (end < bands.length && isFilled(bands[end]!)) end++
    const begin = first
    const here: MoveCounts = {
      of: (group, most) => counts.of(shifted(group, begin), most),
      atLeast: (group) => counts.atLeast(shifted(group, begin)),
    }
    groups.push(...splitRun(bands.slice(first, end), here).map((group) => shifted(group, begin)))
    first = end
  }
  return groups
}

/** How often the quilt is moved for a group: as planned, which takes time, and at least. */
export interface MoveCounts {
  /** Undefined if it is likely to be more than `most`. */
  of(group: Group, most: number): number | undefined
  atLeast(group: Group): number
}

const shifted = ({ first, count, pieced }: Group, by: number): Group => ({
  first: first + by,
  count,
  pieced: pieced.map((band) => band + by),
})

/** So many neighbours are tried as one group at most: more do not fit the reach, and trying them takes ever longer. */
const MOST_TOGETHER = 21

/**
 * The cheapest split of a run by dynamic programming over where its last group begins; of equally cheap ones that with
 * the larger groups. Groups that can be no part of it are not planned: the most hopeful is tried first.
 */
function splitRun(run: readonly BandExtent[], moves: MoveCounts): Group[] {
  const best: (Split | undefined)[] = [{ cost: 0, groups: [] }]
  for (let end = 1; end <= run.length; end++) {
    let least: (Split & { readonly begin: number }) | undefined
    for (const { begin, group, others, atLeast } of lastGroups(run, { end, best, moves })) {
      if (least && atLeast > least.cost) break
      const count = moves.of(group, least ? least.cost - others : Number.POSITIVE_INFINITY)
      if (count === undefined) continue
      const cost = others + count
      if (least && (cost > least.cost || (cost === least.cost && begin > least.begin))) continue
      least = { cost, groups: [...best[begin]!.groups, group], begin }
    }
    best.push(least)
  }
  return [...best[run.length]!.groups]
}

/** Groups, and how much they cost together. */
interface Split {
  readonly cost: number
  readonly groups: readonly Group[]
}

interface LastGroup {
  readonly begin: number
  readonly group: Group
  /** What all but the moves for this group costs, and what all of it costs at least. */
  readonly others: number
  readonly atLeast: number
}

/** The groups that can end before `end`, those that may be cheapest first. */
function lastGroups(
  run: readonly BandExtent[],
  { end, best, moves }: { end: number; best: readonly (Split | undefined)[]; moves: MoveCounts },
): LastGroup[] {
  const found: LastGroup[] = []
  for (let begin = Math.max(0, end - MOST_TOGETHER); begin < end; begin++) {
    const before = best[begin]
    const group = groupOf(run, begin, end)
    if (!before || !group) continue
    const others = before.cost + GROUP + lapsOf(run.slice(begin, end))
    found.push({ begin, group, others, atLeast: others + moves.atLeast(group) })
  }
  return found.sort((a, b) => a.atLeast - b.atLeast)
}

/** Going on from group to group takes a move, and often some travel. Counted in moves of the quilt. */
const GROUP = 4

/** The bands as one group; undefined if they can't be. */
function groupOf(run: readonly BandExtent[], begin: number, end: number): Group | undefined {
  const indices = Array.from({ length: end - begin }, (_, i) => begin + i)
  if (indices.some((i) => run[i]!.thread !== run[begin]!.thread)) return undefined
  const woven = indices.filter((i) => !run[i]!.pieced)
  const pieced = indices.filter((i) => run[i]!.pieced)
  if (woven.length === 0) return pieced.length === 1 ? { first: begin, count: 0, pieced } : undefined
  const isTogether = woven.at(-1)! - woven[0]! === woven.length - 1
  if (!isTogether || (woven.length % 2 === 0 && pieced.length === 0)) return undefined
  return { first: woven[0]!, count: woven.length, pieced }
}

/** Travel that costs as much as one more move of the quilt, mm. */
const TRAVEL_PER_MOVE = 200

/**
 * Where an even number of bands leads round, or none, going on from area to area takes travel in the ditch: over all of
 * the way, or as much of it as is likely. Counted in moves of the quilt.
 */
const lapsOf = (bands: readonly BandExtent[]): number =>
  (evenShare(bands) * bands.at(-1)!.perimeter) / TRAVEL_PER_MOVE

/** Over which part of the way round an even number of bands is likely to lead on. */
const evenShare = (bands: readonly BandExtent[]): number =>
  bands.reduce((even, { pieced, round = 0 }) => {
    const leads = pieced ? round : 1
    return even * (1 - leads) + (1 - even) * leads
  }, 1)

/** How much a further stretch weighs against a nicer fit of the repeats: one more must gain this share of stretching. */
const STRETCH_WEIGHT = 0.04

/** How many times the shift of its seams' middles a stretch is long at least. */
const SHIFTS = 4

/** The least length of a stretch of a band, mm: half a repeat, and long against the shift. */
export const shortestStretch = ({ rhythm, shift }: { rhythm: Rhythm; shift: number }): number =>
  Math.max(rhythm.ends === 'alternate' ? rhythm.repeat / 2 : rhythm.repeat, SHIFTS * shift)

/**
 * Into how many stretches half a side is cut: each fits the reach and holds half a repeat of every band. One or two more
 * are taken where whole repeats then fit clearly better.
 *
 * @param half  length of half the outermost seam, mm
 * @param bands  each band's rhythm, the mean length of half its side, and how far the middles of its two seams are apart
 * along it, mm: a stretch is long against that, or its two ends would cross
 */
export function stretchesFor(
  half: number,
  reachAlong: number,
  bands: readonly { rhythm: Rhythm; length: number; shift: number }[],
): number {
  const wanted = Math.max(1, Math.ceil(half / reachAlong - 1e-9))
  const roomiest = bands.map((band) => band.length / shortestStretch(band))
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
