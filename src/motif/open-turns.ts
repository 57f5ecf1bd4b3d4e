import { distance, type Point } from '../geometry/point.ts'

/** How far apart every second points of a walk through cells lie at least, in cells: so its turns are round. */
export const OPEN = 1.3
/** Rounds in which points are moved: the next ones see what the ones before did. */
const ROUNDS = 3

/**
 * A chain of points whose every second neighbours lie at least about `least` mm apart: they are moved apart, each by half of
 * what is missing, but for the first two and the last two. A spline through the chain then has no turn that is too tight.
 */
export function openTurns(points: readonly Point[], least: number): Point[] {
  const open = points.map(([u, v]): [number, number] => [u, v])
  for (let round = 0; round < ROUNDS; round++)
    for (let i = 3; i + 3 < open.length; i++) {
      const [a, b] = [open[i - 1]!, open[i + 1]!]
      const apart = distance(a, b)
      if (apart >= least || apart === 0) continue
      const k = (least - apart) / (2 * apart)
      const [du, dv] = [k * (b[0] - a[0]), k * (b[1] - a[1])]
      open[i - 1] = [a[0] - du, a[1] - dv]
      open[i + 1] = [b[0] + du, b[1] + dv]
    }
  return open
}
