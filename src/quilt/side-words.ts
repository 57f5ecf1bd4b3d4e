import { type Point, subtract } from '../geometry/point.ts'

/** Clockwise from the right, an eighth of a turn apart. */
const WORDS = ['right', 'lower right', 'bottom', 'lower left', 'left', 'upper left', 'top', 'upper right']

/**
 * The name of a side of an outline by the way it faces, in words: `top`, `upper right`.
 *
 * @param ring  corners clockwise on the screen
 */
export function sideWords(ring: readonly Point[], side: number): string {
  const [x, y] = subtract(ring[(side + 1) % ring.length]!, ring[side]!)
  const facing = Math.atan2(-x, y)
  return WORDS[(Math.round(facing / (Math.PI / 4)) + WORDS.length) % WORDS.length]!
}
