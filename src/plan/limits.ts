/** What a plan may ask for at most. Larger ones are refused before any work starts. */
export const LIMITS = {
  /** Size of a plan file, bytes. */
  fileBytes: 128 * 1024,
  bands: 200,
  /** Levels of nesting in the file. */
  depth: 16,
  /** Entries of one list, or keys of one group. */
  entries: 1000,
  /** Uses of YAML aliases. */
  aliases: 50,
  /** Parts that one alias may repeat; none of them is an alias again. */
  aliasNodes: 500,
  /** Problems told at once. */
  problems: 100,
  /** Characters in a name or a title. */
  name: 80,
  /** Characters in a length. */
  length: 40,
  /** Characters in a colour, a filler's name or one of its values. */
  word: 60,
  /** Sizes of the quilt's parts, mm. */
  least: 1,
  greatest: 10_000,
  /** Width and height of the whole quilt, mm. */
  quilt: 20_000,
  /** Colours of a print. */
  colours: 12,
  /** Corners of a polygon. */
  polygon: 500,
  /** Regions to stay out of. */
  regions: 50,
  /** Thread candidates. */
  threads: 50,
} as const

/** A least and a greatest value. */
export type Range = readonly [least: number, greatest: number]

/** What the numbers and lengths (mm) of a plan may be. */
export const RANGES = {
  part: [LIMITS.least, LIMITS.greatest],
  binding: [0, 100],
  reach: [25, 20_000],
  /** Stitches per minute. */
  speed: [10, 10_000],
  stitch: [1, 12],
  perInch: [2.2, 25],
  tieOffs: [0, 30],
  bobbin: [5_000, 2_000_000],
  /** In any of the systems of thread sizes but dtex. */
  threadSize: [0.1, 2000],
  dtex: [1, 20_000],
  battingLimit: [5, 1000],
  thickness: [0, 25],
  share: [0, 1],
  seed: [0, 2 ** 31 - 1],
} as const satisfies Readonly<Record<string, Range>>

/** `10 to 10000`. */
export const rangeText = ([least, greatest]: Range): string => `${least} to ${greatest}`
