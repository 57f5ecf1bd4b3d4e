/** What a drawing may hold at most. Larger ones are refused before any work starts. */
export const DRAWING_LIMITS = {
  /** Size of a drawing file, bytes; a character counts as one. */
  bytes: 256 * 1024,
  /** Levels of elements within each other. */
  depth: 40,
  /** Lines and curves of the path. */
  segments: 1000,
  /** The largest number in it, user units. */
  number: 1e6,
} as const
