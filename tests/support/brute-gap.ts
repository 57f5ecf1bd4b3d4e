import Flatbush from 'flatbush'
import type { Point } from '../../src/geometry/point.ts'

/** A chain of chords as an output has them. */
type Chain = readonly (readonly [number, number])[]

/** How closely stitching is sampled, mm. */
const SAMPLED = 1

/**
 * The largest circle in a region that no stitching enters, by brute force: at every point of a grid the distance to the
 * nearest sample of the stitching and to the region's edges. It is smaller than the true one by at most a grid's diagonal
 * and larger by at most a sample's length.
 *
 * @param rings  the region's outer edge, and what is cut out of it
 * @param step   of the grid, mm
 */
export function bruteGap(
  chains: readonly Chain[],
  rings: readonly (readonly Point[])[],
  step: number,
): number {
  const samples = chains.flatMap((chain) => chain.slice(1).flatMap((p, i) => between(chain[i]!, p)))
  const tree = new Flatbush(Math.max(1, samples.length))
  for (const [x, y] of samples) tree.add(x, y, x, y)
  if (samples.length === 0) tree.add(1e6, 1e6, 1e6, 1e6)
  tree.finish()
  const xs = rings[0]!.map((p) => p[0])
  const ys = rings[0]!.map((p) => p[1])
  let most = 0
  for (let x = Math.min(...xs) + step / 2; x < Math.max(...xs); x += step)
    for (let y = Math.min(...ys) + step / 2; y < Math.max(...ys); y += step) {
      const room = roomAt([x, y], rings)
      if (2 * room <= most) continue
      const [near] = tree.neighbors(x, y, 1, room)
      const p = near === undefined ? undefined : samples[near]
      const clear = p ? Math.min(room, Math.hypot(p[0] - x, p[1] - y)) : room
      most = Math.max(most, 2 * clear)
    }
  return most
}

function between(a: readonly [number, number], b: readonly [number, number]): Point[] {
  const count = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / SAMPLED))
  return Array.from({ length: count + 1 }, (_, i): Point => {
    const t = i / count
    return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]
  })
}

/** The distance to the nearest edge of the region; negative outside. */
function roomAt([x, y]: Point, rings: readonly (readonly Point[])[]): number {
  let [nearest, isInside] = [Number.POSITIVE_INFINITY, false]
  for (const ring of rings)
    ring.forEach(([ax, ay], i) => {
      const [bx, by] = ring[(i + 1) % ring.length]!
      const [dx, dy] = [bx - ax, by - ay]
      const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)))
      nearest = Math.min(nearest, Math.hypot(ax + t * dx - x, ay + t * dy - y))
      if (ay > y !== by > y && x < ax + ((y - ay) / dy) * dx) isInside = !isInside
    })
  return isInside ? nearest : -nearest
}
