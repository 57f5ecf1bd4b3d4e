import { invariant } from '../error.ts'
import type { Edge } from './contract.ts'

/** What the fit needs to know of a band's filler: how it ends and the nominal length of one repeat, mm. */
export interface Rhythm {
  readonly ends: 'alternate' | 'free'
  readonly repeat: number
  /** The lean of the mitre is spread over the whole half side: touches keep their shares of it on both seams. */
  readonly fans?: boolean
  /** A repeat may be as long as it likes. */
  readonly elastic?: boolean
}

/**
 * A half side, from the side's middle to its corner, through a group of neighbouring bands. Stations are counted from
 * the corner: 0 is the corner, `stretches` is the middle.
 */
export interface HalfSide {
  /** Half lengths of the group's seams from the inside out, one more than bands, mm. */
  readonly halves: readonly number[]
  readonly bands: readonly Rhythm[]
  readonly stretches: number
  /** 0 if the group's innermost seam is touched at the corner, 1 if the next one is. */
  readonly phase: 0 | 1
  /**
   * `wanted[seam][station]`: where each station is wanted, as a share of the seam's half length from its middle, 1 to 0;
   * evenly spread if left out.
   */
  readonly wanted?: readonly (readonly number[])[]
  /** How far each station may lie off the place wanted, mm. Only if given is each stretch fitted by itself. */
  readonly slack?: readonly number[]
}

/** Where the bands of a half side touch their seams at the stations, and how often each motif repeats between them. */
export interface HalfFit {
  /** `at[seam][station]`: the touch's place as a share of the seam's half length; undefined where the seam is not touched. */
  readonly at: readonly (readonly (number | undefined)[])[]
  /** `halfRepeats[band][station]`: half repeats between `station + 1` and `station`. */
  readonly halfRepeats: readonly (readonly number[])[]
}

/**
 * The edge on which a band touches a station. Neighbouring bands touch their common seam at every other station, and
 * every run leads from one edge of its band to the other, so that an odd number of bands can be stitched there and back
 * with no travel.
 *
 * @param band  position in the group from the inside, from 0
 */
export const edgeAt = (band: number, station: number, phase: 0 | 1): Edge =>
  (band + station + phase) % 2 === 0 ? 'inner' : 'outer'

/**
 * Chooses whole half repeats for every band, even along the half side, and places each station where a touch of the
 * band inside a seam and one of the band outside it lie closest together, halfway between the two.
 *
 * Precondition: at least one stretch; halves are positive. Postcondition: shares lie in 0..1 and fall from the middle
 * (share 0) to the corner (share 1) in the order of the stations.
 */
export function fitHalfSide(side: HalfSide): HalfFit {
  const { halves, bands, stretches } = side
  const grids = bands.map((band, k) => gridFor(band, (halves[k]! + halves[k + 1]!) / 2, stretches))
  const at = halves.map(() => new Array<number | undefined>(stretches + 1).fill(undefined))
  const touch = bands.map(() => new Array<number>(stretches + 1).fill(0))
  grids.forEach((grid, k) => {
    touch[k]![0] = grid.count
  })
  for (let seam = 0; seam < halves.length; seam++) {
    if ((seam + side.phase) % 2 === 0) at[seam]![0] = 1
    if ((seam + stretches + side.phase) % 2 === 0) at[seam]![stretches] = 0
  }
  // From the middle outward, so that each station lies beyond the one before it.
  for (let station = stretches - 1; station > 0; station--) {
    for (let seam = (station + side.phase) % 2; seam < halves.length; seam += 2) {
      const half = halves[seam]!
      const target = half * (side.wanted?.[seam]?.[station] ?? 1 - station / stretches)
      const inside = choices(grids[seam - 1], { touch: touch[seam - 1], station, stretches, target, half })
      const outside = choices(grids[seam], { touch: touch[seam], station, stretches, target, half })
      const best = closestPair(inside, outside, target)
      if (inside && best.inside) touch[seam - 1]![station] = best.inside.index
      if (outside && best.outside) touch[seam]![station] = best.outside.index
      at[seam]![station] = Math.min(0.999, Math.max(0.001, best.at / half))
    }
  }
  const halfRepeats = bands.map((band, k) =>
    Array.from({ length: stretches }, (_, station) => {
      if (band.ends === 'alternate') return touch[k]![station]! - touch[k]![station + 1]!
      const inner = at[k]!
      const outer = at[k + 1]!
      const near =
        edgeAt(k, station, side.phase) === 'inner'
          ? inner[station]! * halves[k]!
          : outer[station]! * halves[k + 1]!
      const far =
        edgeAt(k, station + 1, side.phase) === 'inner'
          ? inner[station + 1]! * halves[k]!
          : outer[station + 1]! * halves[k + 1]!
      return band.elastic ? 2 : 2 * Math.max(1, Math.round((near - far) / band.repeat))
    }),
  )
  return { at, halfRepeats }
}

/** Even touches of one band from the middle (0) to the corner (`count`), `step` apart; none for a free motif. */
interface Grid {
  readonly count: number
  readonly step: number
  readonly isFree: boolean
  readonly fans: boolean
}

function gridFor(band: Rhythm, length: number, stretches: number): Grid {
  invariant(band.repeat > 0 && length > 0, 'a repeat and a length are positive')
  const count = nearestOfParity((2 * length) / band.repeat, stretches)
  return { count, step: length / count, isFree: band.ends === 'free', fans: band.fans ?? false }
}

/** The whole number nearest to `value` that is odd or even as `least` is, and not less than it. */
export function nearestOfParity(value: number, least: number): number {
  const above = least + 2 * Math.max(0, Math.ceil((value - least) / 2))
  const below = Math.max(least, above - 2)
  // The smaller stretch wins, measured as a ratio: 4 to 3 is as far as 3 to 4.
  return value * value < above * below ? below : above
}

interface Choice {
  readonly index: number
  readonly at: number
}

interface Reach {
  readonly touch: readonly number[] | undefined
  readonly station: number
  readonly stretches: number
  readonly target: number
  /** Half length of the seam, mm. */
  readonly half: number
}

/** The touches that a band could use at a station: undefined if there is no such band, empty if it may touch anywhere. */
function choices(
  grid: Grid | undefined,
  { touch, station, stretches, target, half }: Reach,
): Choice[] | undefined {
  if (!grid || !touch) return undefined
  if (grid.isFree) return []
  const passed = touch[station + 1]!
  const least = passed + 1
  const most = grid.count - station
  const found: Choice[] = []
  const parity = (stretches - station) % 2
  const step = grid.fans ? half / grid.count : grid.step
  const middle = Math.round(target / step)
  for (let index = Math.max(least, middle - 5); index <= Math.min(most, middle + 5); index++) {
    if (index % 2 === parity) found.push({ index, at: index * step })
  }
  if (found.length > 0) return found
  const forced = middle < least ? least : most
  const index = forced % 2 === parity ? forced : Math.max(least, forced - 1)
  return [{ index, at: index * step }]
}

interface Pair {
  readonly inside: Choice | undefined
  readonly outside: Choice | undefined
  readonly at: number
}

/** A touch of each neighbour, chosen so that the two lie close together first and close to the target second. */
function closestPair(inside: Choice[] | undefined, outside: Choice[] | undefined, target: number): Pair {
  const [ins, outs] = [orNone(inside), orNone(outside)]
  let best: Pair = { inside: undefined, outside: undefined, at: target }
  let least = Number.POSITIVE_INFINITY
  for (const a of ins) {
    for (const b of outs) {
      const at = a && b ? (a.at + b.at) / 2 : (a?.at ?? b?.at ?? target)
      const cost = (a && b ? Math.abs(a.at - b.at) : 0) + 0.35 * Math.abs(at - target)
      if (cost < least) [best, least] = [{ inside: a, outside: b, at }, cost]
    }
  }
  return best
}

const orNone = (list: Choice[] | undefined): (Choice | undefined)[] =>
  list && list.length > 0 ? list : [undefined]

/**
 * How far the fillers are stretched at worst: the greatest ratio, in either direction, of a repeat's length to its nominal
 * one.
 */
export function worstStretch(
  { halves, bands, stretches, phase }: HalfSide,
  { at, halfRepeats }: HalfFit,
): number {
  let worst = 1
  bands.forEach((band, k) => {
    const [inner, outer] = [halves[k]!, halves[k + 1]!]
    const mean = (inner + outer) / 2
    const place = (station: number) => {
      if (station === 0) return mean
      const isInner = edgeAt(k, station, phase) === 'inner'
      const share = at[isInner ? k : k + 1]![station]!
      return share * (band.fans ? mean : isInner ? inner : outer)
    }
    for (let station = 0; station < stretches; station++) {
      const length = place(station) - place(station + 1)
      if (!(length > 0)) {
        worst = Number.POSITIVE_INFINITY
        continue
      }
      if (band.elastic) continue
      const whole = length / ((halfRepeats[k]![station]! / 2) * band.repeat)
      // What ends freely has no touches to keep: half of its stretching is taken up by its leads.
      const ratio = band.ends === 'free' ? Math.sqrt(whole) : whole
      worst = Math.max(worst, ratio, 1 / ratio)
    }
  })
  return worst
}
