import { cross, distance, dot, lerp, type Point, subtract, unit } from '../geometry/point.ts'
import type { HalfFit } from '../motif/fit.ts'
import type { Quilt } from '../quilt/quilt.ts'

/** A station may move by this part of the way to its neighbours; more would show in the repeats. */
const MOST = 0.06
/** A corner this close to a seam lies on it, mm. */
const ON_SEAM = 0.01

/**
 * Moves the touches on one seam to the nearest patch corners on it, so that the line crosses there. The middle and the
 * corner stay where they are.
 *
 * @param seam     index into the fit's seams
 * @param corners  shares of the seam's half length at which patch corners lie, ascending
 */
export function snapStations(fit: HalfFit, seam: number, corners: readonly number[]): HalfFit {
  const shares = fit.at[seam]!
  const touched = shares.flatMap((share, station) => (share === undefined ? [] : [station]))
  const snapped = shares.map((share, station) => {
    if (share === undefined || station === 0 || station === shares.length - 1) return share
    const i = touched.indexOf(station)
    const [outer, inner] = [shares[touched[i - 1] ?? 0] ?? 1, shares[touched[i + 1] ?? -1] ?? 0]
    const room = MOST * Math.min(outer - share, share - inner)
    const best = nearest(corners, share)
    return best !== undefined && Math.abs(best - share) <= room ? best : share
  })
  return { ...fit, at: fit.at.map((list, k) => (k === seam ? snapped : list)) }
}

const nearest = (values: readonly number[], to: number): number | undefined =>
  values.reduce<number | undefined>(
    (best, x) => (best === undefined || Math.abs(x - to) < Math.abs(best - to) ? x : best),
    undefined,
  )

/**
 * Where corners of filled patches lie along one side of a ring, as shares of the half side from its middle.
 *
 * @param isFilled  by the patch's name
 */
export function cornerShares(
  quilt: Quilt,
  { band, side, ring }: { band: number; side: number; ring: number },
  isFilled: (name: string) => boolean,
): number[] {
  const outline = quilt.rings[ring]!
  const [a, b] = [outline[side]!, outline[(side + 1) % outline.length]!]
  const [along, middle, half] = [unit(subtract(b, a)), lerp(a, b, 0.5), distance(a, b) / 2]
  const isOnSeam = (p: Point) => Math.abs(cross(along, subtract(p, a))) < ON_SEAM
  const shares = (quilt.patches ?? [])
    .filter((patch) => patch.band === band && patch.side === side && isFilled(patch.name))
    .flatMap(({ outline }) => outline.filter(isOnSeam))
    .map((p) => dot(subtract(p, middle), along) / half)
    .filter((share) => share >= 0 && share <= 1)
  return [...new Set(shares)].sort((x, y) => x - y)
}
