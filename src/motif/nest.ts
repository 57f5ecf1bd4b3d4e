import { distance, type Point } from '../geometry/point.ts'

/** A circle, mm. */
export interface Circle {
  readonly centre: Point
  readonly radius: number
}

/** Something beside which a circle can lie: how far a point is from it, mm; negative inside or beyond. */
export type Neighbour = (p: Point) => number

export const round =
  ({ centre, radius }: Circle): Neighbour =>
  (p) =>
    distance(p, centre) - radius

/** The upright line x = `at`, to the right of it. */
export const wall =
  (at: number): Neighbour =>
  ([x]) =>
    x - at

/** The line x = `foot` + `slope` y, to the left of it. */
export const slant =
  ({ foot, slope }: { foot: number; slope: number }): Neighbour =>
  ([x, y]) =>
    (foot + slope * y - x) / Math.hypot(1, slope)

/** Where a circle nestles: on the line y = `floor`, between neighbours on its left and on its right. */
export interface Nook {
  readonly left: Neighbour
  readonly right: Neighbour
  readonly floor: number
  /** The greatest radius; a circle of this radius keeps to its right neighbour. */
  readonly most: number
  /** A place beyond both neighbours' nearest points: the search goes from here to the right. */
  readonly within: { readonly min: number; readonly max: number }
}

/** The greatest circle that fits, found by halving. */
export function nestle({ left, right, floor, most, within }: Nook): Circle {
  const place = (radius: number): Point => {
    const y = floor + radius
    return [lastWhere((x) => right([x, y]) >= radius, within.min, within.max), y]
  }
  const radius = lastWhere((r) => left(place(r)) >= r, 0, most)
  return { centre: place(radius), radius }
}

/** The greatest value up to which `holds`, for a condition that holds up to somewhere and not beyond. */
function lastWhere(holds: (value: number) => boolean, min: number, max: number): number {
  if (holds(max)) return max
  let [low, high] = [min, max]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (holds(middle)) low = middle
    else high = middle
  }
  return low
}
