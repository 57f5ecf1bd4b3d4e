import { distance, distanceToLine, dot, lerp, type Point, subtract } from '../geometry/point.ts'
import type { Patch } from './patch.ts'
import { PointGrid } from './point-grid.ts'
import type { Seam } from './quilt.ts'

/** Corners closer together than this are one, mm. */
const SAME_CORNER = 0.01

/**
 * The seams between patches of one band, each a straight stretch between two neighbouring patch corners. What lies on
 * one of the band's own two seams is left out: it is there already.
 *
 * @param patches  of one band, with their numbers in the quilt
 * @param rings    the band's inner and outer outline
 */
export function patchSeams(
  patches: readonly { readonly patch: Patch; readonly number: number }[],
  rings: readonly (readonly Point[])[],
): Seam[] {
  const [first] = patches
  if (!first) return []
  const grid = new PointGrid(SAME_CORNER, longestEdge(first.patch))
  for (const { patch } of patches) for (const corner of patch.outline) grid.numberAt(corner)
  const edges = new Map<string, { ends: [number, number]; patches: number[] }>()
  for (const { patch, number } of patches) {
    patch.outline.forEach((from, i) => {
      const stops = stopsAlong(from, patch.outline[(i + 1) % patch.outline.length]!, grid)
      for (let k = 1; k < stops.length; k++) {
        const ends = [stops[k - 1]!, stops[k]!].sort((a, b) => a - b) as [number, number]
        const known = edges.get(ends.join())
        if (known) known.patches.push(number)
        else edges.set(ends.join(), { ends, patches: [number] })
      }
    })
  }
  return [...edges.values()]
    .map(({ ends, patches }) => ({ points: ends.map((i) => grid.points[i]!), patches }))
    .filter(({ points }) => !rings.some((ring) => liesOn(points, ring)))
    .map(({ points, patches }): Seam => ({ kind: 'patch', index: first.patch.band, points, patches }))
}

const longestEdge = ({ outline }: Patch): number =>
  Math.max(...outline.map((p, i) => distance(p, outline[(i + 1) % outline.length]!)))

/** The corners on the way from one to the other, both included. */
function stopsAlong(from: Point, to: Point, grid: PointGrid): number[] {
  const along = subtract(to, from)
  return grid
    .within(from, to)
    .filter((i) => distanceToLine(grid.points[i]!, from, to) < SAME_CORNER)
    .sort((a, b) => dot(grid.points[a]!, along) - dot(grid.points[b]!, along))
}

function liesOn(points: readonly Point[], ring: readonly Point[]): boolean {
  const middle = lerp(points[0]!, points[1]!, 0.5)
  return ring.some((a, i) => distanceToLine(middle, a, ring[(i + 1) % ring.length]!) < SAME_CORNER)
}
