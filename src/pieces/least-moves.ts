import { distance, type Point } from '../geometry/point.ts'
import { boundsOf } from '../geometry/stroke.ts'
import { outlineArea } from '../quilt/outline.ts'
import type { Quilt } from '../quilt/quilt.ts'
import { heightAt } from '../quilt/side-height.ts'
import type { Group } from './grouping.ts'
import type { Reach } from './pieces.ts'

/**
 * How often the quilt is moved at least for a group, whatever the way round it. Between two moves no more cloth is
 * stitched than lies within the reach; and of a convex ring that is larger than the reach both ways, no more than the
 * reach's width and height together.
 */
export function leastMoves(quilt: Quilt, reach: Reach): (group: Group) => number {
  const areas = quilt.rings.map((ring) => Math.abs(outlineArea(ring)))
  const round = quilt.rings.map((ring) => movesRound(ring, reach))
  const depths = quilt.bands.map(({ sides }) =>
    Math.max(...sides.flatMap((side) => [heightAt(side, 'outerA'), heightAt(side, 'outerB')])),
  )
  return ({ first, count, pieced }) => {
    const last = Math.max(first + count - 1, ...pieced)
    const begin = Math.min(first, ...pieced)
    // Of a band deeper than the reach the moves are not reckoned all over.
    const isDeep = depths.slice(begin, last + 1).some((depth) => depth > Math.min(...reach))
    const cloth = isDeep ? 0 : areas[last + 1]! - areas[begin]!
    return Math.ceil(Math.max(0, cloth / (reach[0] * reach[1]) - 1, round[last]!) - ROUNDING)
  }
}

const ROUNDING = 1e-6

function movesRound(ring: readonly Point[], [width, height]: Reach): number {
  const { minX, minY, maxX, maxY } = boundsOf(ring)
  if (maxX - minX <= width || maxY - minY <= height) return 0
  const length = ring.reduce((sum, a, i) => sum + distance(a, ring[(i + 1) % ring.length]!), 0)
  return length / (width + height) - 1
}
