/** What a plan may ask for at most. Larger ones are refused before any work starts. A bare number is mm. */
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
  /** Characters in any other text: a colour, a length. */
  text: 80,
  /** Sizes of the quilt and its parts. */
  least: 1,
  greatest: 10_000,
  /** Corners of a polygon. */
  polygon: 500,
  /** Patches in a unit of one's own. */
  patches: 100,
  /** Patches of the whole quilt. */
  allPatches: 20_000,
  /** Line of the whole quilt, as reckoned before it is drawn: 12 km. */
  line: 12e6,
  /** Motifs that a plan draws itself, and characters of a path that is written into it. */
  drawnMotifs: 40,
  path: 20_000,
  /** Regions to stay out of. */
  regions: 50,
  /** Thread candidates. */
  threads: 50,
  /** Colours of one fabric. */
  colours: 12,
  /** Seams to stitch in the ditch. */
  seams: 600,
  /** Problems that are told at once. */
  problems: 500,
  /** Problems for which a near name is sought. */
  hints: 50,
  /** The seed: a whole number from 0. */
  seed: 2 ** 31 - 1,
} as const
