import { assertWithin } from '../stitch/within-limits.ts'
import type { Polyline } from './polyline.ts'

/**
 * How much the quilt is turned under a machine that feeds in one direction only, such as with a walking foot: the sum of
 * all turns either way, in full turns. The line may run in any direction within a sector without a turn; where it leaves
 * the sector, the quilt is turned by as much as that takes, the short way round, and no more. Where the line bends by less
 * than half a turn beyond the sector at a time, no turning adds up to less.
 *
 * @param lines   in the order of work; from one to the next the quilt is turned as well
 * @param sector  how wide the comfortable directions spread, radians: 0 turns with every bend, 2 pi never
 * @throws PlanError `check/turning` for a sector that is none
 * @source the headings that cost least so far form an interval; the next sector cuts it, or moves it by the gap between
 *   them: the taut string of a tube in one dimension
 */
export function sumTurning(lines: readonly Polyline[], sector: number): number {
  assertWithin('check/turning', [{ at: 'sector', value: sector, min: 0, max: 2 * Math.PI, unit: 'radians' }])
  let heading: Interval | undefined
  let turned = 0
  for (const { xs, ys } of lines)
    for (let i = 1; i < xs.length; i++) {
      const [dx, dy] = [xs[i]! - xs[i - 1]!, ys[i]! - ys[i - 1]!]
      if (Math.abs(dx) + Math.abs(dy) < LEAST) continue
      const direction = nearestTo(heading, Math.atan2(dy, dx))
      const next = { from: direction - sector / 2, to: direction + sector / 2 }
      const gap: number = heading ? gapBetween(heading, next) : 0
      turned += Math.abs(gap)
      heading = heading ? moved(heading, next, gap) : next
    }
  return turned / (2 * Math.PI)
}

/** A chord shorter than this has no direction, mm. */
const LEAST = 1e-6

/** Headings of the quilt that would serve, radians, counted on through full turns. */
interface Interval {
  readonly from: number
  readonly to: number
}

/** A direction, counted on through full turns, as near to the headings as it comes: the short way round. */
function nearestTo(heading: Interval | undefined, direction: number): number {
  if (!heading) return direction
  const middle = (heading.from + heading.to) / 2
  return direction + 2 * Math.PI * Math.round((middle - direction) / (2 * Math.PI))
}

/** How far the second interval lies above the first; negative below, 0 where they share anything. */
function gapBetween(a: Interval, b: Interval): number {
  if (b.from > a.to) return b.from - a.to
  return b.to < a.from ? b.to - a.from : 0
}

function moved(heading: Interval, next: Interval, gap: number): Interval {
  if (gap > 0) return { from: next.from, to: next.from }
  if (gap < 0) return { from: next.to, to: next.to }
  return { from: Math.max(heading.from, next.from), to: Math.min(heading.to, next.to) }
}
