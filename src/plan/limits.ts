/** What a plan may ask for at most. Larger ones are refused before any work starts. */
export const LIMITS = {
  /** Size of a plan file, bytes. */
  fileBytes: 256 * 1024,
  bands: 200,
  /** Levels of nesting in the file. */
  depth: 16,
  /** Uses of YAML aliases. */
  aliases: 50,
  /** Characters in a name or a title. */
  name: 80,
  /** Sizes of the quilt, mm. */
  least: 1,
  greatest: 10_000,
  /** Corners of a polygon. */
  polygon: 500,
  /** Regions to stay out of. */
  regions: 50,
  /** Thread candidates. */
  threads: 50,
} as const
