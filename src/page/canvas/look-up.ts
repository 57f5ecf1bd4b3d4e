import { distance, distanceToLine, type Point } from '../../geometry/point.ts'
import { namesOf } from '../../quilt/outline-names.ts'
import type { Quilt } from '../../quilt/quilt.ts'
import { seamName } from '../../report/where.ts'
import type { Scene, ScenePart } from '../worker/messages.ts'
import { placeOf, pointAlong } from './chunks.ts'
import { chainsOf } from './close-up.ts'

/** A part of the line near a place, and how far along the work the nearest point of it lies, mm. */
export interface PartThere {
  readonly part: ScenePart
  readonly along: number
}

/** The part of the line nearest to a place, if it lies within `reach` mm. */
export function partNear(scene: Scene, at: Point, reach: number): PartThere | undefined {
  let best: PartThere | undefined
  let least = reach
  for (const part of scene.parts) {
    const { xy, along } = scene.lines[part.thread]!
    for (let i = part.points[0]; i < Math.max(part.points[0] + 1, part.points[1]); i++) {
      const a: Point = [xy[2 * i]!, xy[2 * i + 1]!]
      if (Math.abs(a[0] - at[0]) > least + 60 || Math.abs(a[1] - at[1]) > least + 60) continue
      const j = Math.min(i + 1, along.length - 1)
      const away = distanceToLine(at, a, [xy[2 * j]!, xy[2 * j + 1]!])
      // A crossing has no length: it wins over the fillers that meet in it.
      const bonus = part.kind === 'crossing' ? reach / 3 : 0
      if (away - bonus < least) {
        least = away - bonus
        best = { part, along: along[i]! }
      }
    }
  }
  return best
}

/** A stretch of the seam between two rings' bands, where a line may be told to start. */
export interface SeamThere {
  readonly ring: number
  readonly side: number
  /** The band that the seam starts: the one outside of it, or the last. */
  readonly band: number
  readonly name: string
  /** The corner of the quilt, if the place is one: clockwise from the top left. */
  readonly corner: number | undefined
}

/** The seam nearest to a place, if it lies within `reach` mm. */
export function seamNear(quilt: Quilt, at: Point, reach: number): SeamThere | undefined {
  let best: SeamThere | undefined
  let least = reach
  quilt.rings.forEach((ring, index) => {
    ring.forEach((a, side) => {
      const away = distanceToLine(at, a, ring[(side + 1) % ring.length]!)
      if (away > least) return
      least = away
      const corner = ring.findIndex((p) => distance(p, at) <= 3 * reach)
      best = {
        ring: index,
        side,
        band: Math.min(index, quilt.bands.length - 1),
        name: seamName(index, quilt),
        corner: index === quilt.rings.length - 1 && corner >= 0 ? corner : undefined,
      }
    })
  })
  return best
}

/** How the plan file says to start at a seam. */
export function startAt(
  quilt: Quilt,
  { corner, band, side }: SeamThere,
): string | { band: string; side: string } {
  const cornerName = corner === undefined ? undefined : namesOf(quilt.rings.at(-1)!).corners[corner]
  return cornerName ?? { band: quilt.bands[band]!.name, side: namesOf(quilt.rings[band]!).sides[side]! }
}

/** The part that is stitched at a distance along the work. */
export function partAt({ parts }: Scene, along: number): ScenePart | undefined {
  let [low, high] = [0, parts.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if (parts[middle]!.along[0] <= along) low = middle
    else high = middle - 1
  }
  return parts[low]
}

/** Where the needle is at a distance along the work: as exactly as the scene is known. */
export function needleAt(scene: Scene, along: number): [number, number] | undefined {
  const part = partAt(scene, along)
  if (!part) return undefined
  const { xy, along: places } = chainsOf(scene)[part.thread]!
  return pointAlong(xy, places, along)
}

/** How many needle points lie at or before a distance along the work. */
export const stitchesBy = (needles: Float32Array, along: number): number =>
  needles.length === 0 ? 0 : placeOf(needles, along)
