/** A stream of numbers that its seed alone decides. */
export interface Random {
  /** The next number, at least 0 and below 1. */
  next(): number
  /** The next number between `low` and `high`. */
  between(low: number, high: number): number
  /** The next whole number, at least 0 and below `count`. */
  below(count: number): number
}

/**
 * A seeded stream of numbers, even over 0..1. Any number is a seed; the same seed gives the same stream everywhere.
 *
 * @source mulberry32: a 32-bit counter stepped by 0x6d2b79f5 and mixed by two multiply-xorshift rounds
 */
export function seededRandom(seed: number): Random {
  let state = Math.floor(seed) | 0
  const next = () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    below: (count) => Math.floor(next() * count),
  }
}
