import { add, distance, type Point, scale } from '../geometry/point.ts'
import { cubic, type Segment } from '../geometry/segment.ts'

/** A place, the direction of travel there (a unit vector), and how far a joint is drawn along it. */
export interface Heading {
  readonly at: Point
  readonly along: Point
  /** The length of a joint's handle here as a share of the distance; 0.4 if left out. */
  readonly pull?: number
}

/** A smooth joint from one heading to another, tangent to both. */
export function joint(from: Heading, to: Heading): Segment {
  const apart = distance(from.at, to.at)
  return cubic(
    add(from.at, scale(from.along, apart * (from.pull ?? 0.4))),
    add(to.at, scale(to.along, -apart * (to.pull ?? 0.4))),
    to.at,
  )
}
