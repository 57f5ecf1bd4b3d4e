import { edgeAt, fitHalfSide, type HalfFit, type HalfSide, nearestOfParity } from './fit.ts'

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
  const at = firstPlaces(side)
  const cost = stationCost(side, at)
  for (const span of ROUNDS)
    for (let station = side.stretches - 1; station > 0; station--)
      for (let seam = (station + side.phase) % 2; seam < side.halves.length; seam += 2)
        settle(at, { seam, station }, { span: span * side.slack![station]!, cost })
  return {
    at: at.map((seam, k) => seam.map((place) => place && place / side.halves[k]!)),
    halfRepeats: side.bands.map((_, k) =>
      Array.from({ length: side.stretches }, (_, station) =>
        halfRepeatsIn(side, k, lengthOf(side, at, k, station)),
      ),
    ),
  }
}

type Places = (number | undefined)[][]

/** Where the stations are wanted, mm from the middle. */
function firstPlaces({ halves, stretches, phase, wanted }: HalfSide): Places {
  return halves.map((half, seam) =>
    Array.from({ length: stretches + 1 }, (_, station) =>
      (seam + station + phase) % 2 === 0 ? half * wanted![seam]![station]! : undefined,
    ),
  )
}

function settle(
  at: Places,
  { seam, station }: { seam: number; station: number },
  { span, cost }: { span: number; cost: (seam: number, station: number) => number },
): void {
  const was = at[seam]![station]!
  let [best, least] = [was, cost(seam, station)]
  for (let i = -TRIED; i <= TRIED; i++) {
    at[seam]![station] = was + (span * i) / TRIED
    const now = cost(seam, station)
    if (now < least - 1e-9) [best, least] = [at[seam]![station]!, now]
  }
  at[seam]![station] = best
}

/** What the place of one station costs: the stretching on all four sides of it, and how far it strays. */
function stationCost(side: HalfSide, at: Places) {
  const { halves, bands, wanted, slack } = side
  return (seam: number, station: number): number => {
    const stray = Math.abs(at[seam]![station]! - wanted![seam]![station]! * halves[seam]!) / slack![station]!
    let sum = 0.05 * stray * stray + STRAY_WEIGHT * Math.max(0, stray - 1)
    if (seam > 0)
      sum += stretchCost(side, at, seam - 1, station) + stretchCost(side, at, seam - 1, station - 1)
    if (seam < bands.length)
      sum += stretchCost(side, at, seam, station) + stretchCost(side, at, seam, station - 1)
    return sum
  }
}

/** What the stretching of one band between `station + 1` and `station` costs. */
// biome-ignore format: the arguments are the place of one stretch
function stretchCost(side: HalfSide, at: Places, band: number, station: number): number {
  const { repeat, ends, elastic } = side.bands[band]!
  const length = lengthOf(side, at, band, station)
  const shortest = ends === 'free' ? repeat : repeat / 2
  if (length < LEAST * shortest) return 1e6 - length
  if (elastic) return 0
  const ideal = halfRepeatsIn(side, band, length) * (repeat / 2)
  const log = Math.abs(Math.log(length / ideal)) * (ends === 'free' ? FREE : 1)
  const over = Math.max(0, log - SEEN)
  return (log / SEEN) ** 2 + SEEN_WEIGHT * (over / SEEN)
}

/** Length of one band between `station + 1` and `station`, mm. */
function lengthOf(side: HalfSide, at: Places, band: number, station: number): number {
  return placeOf(side, at, band, station) - placeOf(side, at, band, station + 1)
}

/** Where a band touches a station, by its own length from the middle, mm. */
function placeOf({ halves, bands, phase }: HalfSide, at: Places, band: number, station: number): number {
  const [inner, outer] = [halves[band]!, halves[band + 1]!]
  if (station === 0) return (inner + outer) / 2
  const isInner = edgeAt(band, station, phase) === 'inner'
  const place = at[isInner ? band : band + 1]![station]!
  return bands[band]!.fans ? (place * (inner + outer)) / 2 / (isInner ? inner : outer) : place
}

function halfRepeatsIn({ bands }: HalfSide, k: number, length: number): number {
  const { repeat, ends, elastic } = bands[k]!
  if (ends === 'alternate') return nearestOfParity((2 * length) / repeat, 1)
  return elastic ? 2 : 2 * Math.max(1, Math.round(length / repeat))
}
