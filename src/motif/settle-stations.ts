import { edgeAt, fitHalfSide, type HalfFit, type HalfSide, nearestOfParity, type Rhythm } from './fit.ts'

/** Repeats stretched by so much (the logarithm of a ratio) are seen beside their neighbours: from here on it costs far more. */
const SEEN = 0.09
const SEEN_WEIGHT = 12
/** Beyond its slack a station costs so much for each part of the slack. */
const STRAY_WEIGHT = 40
/** A stretch this much shorter than half a repeat is none. */
const LEAST = 0.5
/** What ends freely takes up half of its stretching in its leads. */
const FREE = 0.5

/** In each round every station is tried at so many places to either side, over so much of its slack. */
const ROUNDS = [3, 2, 1, 0.4]
const TRIED = 5

/** Fits a half side: each stretch by itself where its stations have slack, in even repeats along it where not. */
export const fitStations = (side: HalfSide): HalfFit =>
  side.slack === undefined ? fitHalfSide(side) : settleStations(side)

/**
 * Places each station by itself within its slack, so that the stretches beside it hold whole half repeats, as many as
 * fit best in each. Neighbouring bands meet exactly.
 *
 * Precondition: `wanted` and `slack` are given. Postcondition: as of `fitHalfSide`.
 */
function settleStations(side: HalfSide): HalfFit {
  const settling = new Settling(side)
  for (const span of ROUNDS)
    for (let station = side.stretches - 1; station > 0; station--)
      for (let seam = (station + side.phase) % 2; seam < side.halves.length; seam += 2)
        settling.settle(seam, station, span * side.slack![station]!)
  return settling.fit()
}

/** A stretch beside a station: its band, where its other end lies, and its own length for each mm along the seam. */
interface Beside {
  readonly band: number
  readonly other: number
  readonly factor: number
}

/** Places of stations, mm from the middle of their seams. */
class Settling {
  readonly #side: HalfSide
  /** `#at[seam][station]`; NaN where the seam is not touched. */
  readonly #at: readonly number[][]

  constructor(side: HalfSide) {
    this.#side = side
    this.#at = side.halves.map((half, seam) =>
      Array.from({ length: side.stretches + 1 }, (_, station) =>
        (seam + station + side.phase) % 2 === 0 ? half * side.wanted![seam]![station]! : Number.NaN,
      ),
    )
  }

  /** Moves a station to the best of the places tried, up to `span` to either side. */
  settle(seam: number, station: number, span: number): void {
    const beside = this.#besides(seam, station)
    const was = this.#at[seam]![station]!
    let best = was
    let least = this.#cost(seam, station, { beside, most: Number.POSITIVE_INFINITY })
    for (let i = -TRIED; i <= TRIED; i++) {
      if (i === 0) continue
      this.#at[seam]![station] = was + (span * i) / TRIED
      const now = this.#cost(seam, station, { beside, most: least })
      if (now < least - 1e-9) [best, least] = [this.#at[seam]![station]!, now]
    }
    this.#at[seam]![station] = best
  }

  fit(): HalfFit {
    const { halves, bands, stretches } = this.#side
    return {
      at: this.#at.map((seam, k) =>
        seam.map((place) => (Number.isNaN(place) ? undefined : place / halves[k]!)),
      ),
      halfRepeats: bands.map((band, k) =>
        Array.from({ length: stretches }, (_, station) =>
          halfRepeatsIn(band, this.#placeOf(k, station) - this.#placeOf(k, station + 1)),
        ),
      ),
    }
  }

  /** The stretches that end at a station: on both sides of it, in the bands on both sides of its seam. */
  #besides(seam: number, station: number): Beside[] {
    const { bands, halves } = this.#side
    const found: Beside[] = []
    for (const band of [seam - 1, seam]) {
      if (band < 0 || band >= bands.length) continue
      const factor = factorOn(this.#side, band, halves[seam]!)
      found.push({ band, other: this.#placeOf(band, station + 1), factor })
      found.push({ band, other: this.#placeOf(band, station - 1), factor: -factor })
    }
    return found
  }

  /** What the place of one station costs, the stretching on all four sides and how far it strays; if more than `most`, no less than that. */
  #cost(
    seam: number,
    station: number,
    { beside, most }: { readonly beside: readonly Beside[]; readonly most: number },
  ): number {
    const { halves, bands, wanted, slack } = this.#side
    const at = this.#at[seam]![station]!
    const stray = Math.abs(at - wanted![seam]![station]! * halves[seam]!) / slack![station]!
    let sum = 0.05 * stray * stray + STRAY_WEIGHT * Math.max(0, stray - 1)
    for (let i = 0; i < beside.length && sum < most; i++) {
      const { band, other, factor } = beside[i]!
      sum += stretchCost(bands[band]!, factor > 0 ? at * factor - other : other + at * factor)
    }
    return sum
  }

  /** Where a band touches a station, by its own length from the middle, mm. */
  #placeOf(band: number, station: number): number {
    const { halves, phase } = this.#side
    if (station === 0) return (halves[band]! + halves[band + 1]!) / 2
    const seam = edgeAt(band, station, phase) === 'inner' ? band : band + 1
    return this.#at[seam]![station]! * factorOn(this.#side, band, halves[seam]!)
  }
}

/** A band's own length for each mm along one of its seams: fanned ones keep their shares on both seams. */
const factorOn = ({ halves, bands }: HalfSide, band: number, half: number): number =>
  bands[band]!.fans ? (halves[band]! + halves[band + 1]!) / 2 / half : 1

/** What the stretching of one stretch costs. */
function stretchCost(band: Rhythm, length: number): number {
  const { repeat, ends, elastic } = band
  const shortest = ends === 'free' ? repeat : repeat / 2
  if (length < LEAST * shortest) return 1e6 - length
  if (elastic) return 0
  const ideal = halfRepeatsIn(band, length) * (repeat / 2)
  const log = Math.abs(Math.log(length / ideal)) * (ends === 'free' ? FREE : 1)
  const share = log / SEEN
  return share * share + SEEN_WEIGHT * Math.max(0, share - 1)
}

/** How many half repeats a stretch holds. */
function halfRepeatsIn({ repeat, ends, elastic }: Rhythm, length: number): number {
  if (ends === 'alternate') return nearestOfParity((2 * length) / repeat, 1)
  return elastic ? 2 : 2 * Math.max(1, Math.round(length / repeat))
}
