import type { Polyline } from '../check/polyline.ts'
import { cross, type Point, subtract } from '../geometry/point.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { BandCount } from '../stitch/lay-stitches.ts'
import type { Reckoning } from './reckon.ts'

/** Length of line in each band, by its index, and in the centre (-1), wherever the line was drawn for, mm. */
export function spreadOverBands(chords: readonly Polyline[], { rings }: Quilt): ReadonlyMap<number, number> {
  const inside = rings.map((ring) => chords.reduce((sum, chain) => sum + lengthInside(chain, ring), 0))
  return new Map(inside.map((length, ring) => [ring - 1, length - (inside[ring - 1] ?? 0)]))
}

/** The same for stitches: each is counted where it ends. */
export function countOverBands(
  stitches: Reckoning['stitches'],
  { rings }: Quilt,
  lengths: ReadonlyMap<number, number>,
): BandCount[] {
  const counts = rings.map(() => 0)
  for (const { count, xs, ys } of stitches)
    for (let i = 1; i <= count; i++) {
      const p: Point = [xs[i]!, ys[i]!]
      const ring = rings.findIndex((outline) => isInside(outline, p))
      counts[ring < 0 ? rings.length - 1 : ring]!++
    }
  return counts.map((count, ring) => ({ band: ring - 1, count, lengthMm: lengths.get(ring - 1) ?? 0 }))
}

/** How much of a chain of chords lies inside a convex ring, mm. */
function lengthInside({ xs, ys }: Polyline, ring: readonly Point[]): number {
  let sum = 0
  for (let i = 1; i < xs.length; i++) {
    const [a, b]: [Point, Point] = [
      [xs[i - 1]!, ys[i - 1]!],
      [xs[i]!, ys[i]!],
    ]
    sum += Math.hypot(b[0] - a[0], b[1] - a[1]) * shareInside(a, b, ring)
  }
  return sum
}

/** The share of a chord that lies inside a convex ring, clockwise on the screen. @source Cyrus and Beck, 1978 */
function shareInside(a: Point, b: Point, ring: readonly Point[]): number {
  let [from, to] = [0, 1]
  for (let k = 0; k < ring.length; k++) {
    const [start, along] = sideOf(ring, k)
    const [atA, atB] = [cross(along, subtract(a, start)), cross(along, subtract(b, start))]
    if (atA < 0 && atB < 0) return 0
    if (atA < 0) from = Math.max(from, atA / (atA - atB))
    else if (atB < 0) to = Math.min(to, atA / (atA - atB))
  }
  return Math.max(0, to - from)
}

const isInside = (ring: readonly Point[], p: Point): boolean =>
  ring.every((_, k) => {
    const [start, along] = sideOf(ring, k)
    return cross(along, subtract(p, start)) >= 0
  })

const sideOf = (ring: readonly Point[], k: number): [start: Point, along: Point] => [
  ring[k]!,
  subtract(ring[(k + 1) % ring.length]!, ring[k]!),
]
