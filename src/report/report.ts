import * as z from 'zod'

const mm = (what: string) => z.number().describe(`${what}, mm`)
const place = z.tuple([z.number(), z.number()]).describe('x to the right, y down, mm')
const sides = z
  .array(z.number())
  .describe(
    'round any other outline than a rectangle: clockwise from the top side, on point from the upper left',
  )

/** One thing that the quilter should know. */
const warning = z.strictObject({
  code: z.string().describe('machine-readable: area/problem'),
  message: z.string(),
  at: z.string().describe("the place: a key of the plan, or a band's name"),
})

const stretch = z.strictObject({ min: z.number(), max: z.number() })

const walkingFoot = z.strictObject({
  verdict: z.enum(['suits', 'with care', 'cannot']),
  reasons: z.array(z.string()).describe('why it cannot, or what needs care'),
  smallestRadiusMm: mm('smallest radius of a curve; null where all is straight').nullable(),
  pivots: z.number().int().describe('corners at which the quilt is turned'),
  reversals: z.number().int().describe('places where it is turned right round'),
})

const range = z.tuple([z.number(), z.number()])

const spools = z.strictObject({
  thread: z.string().describe('CSS colour'),
  bands: z.array(z.string()).describe('bands, and the centre, that are stitched with it'),
  lineMm: mm('length of line stitched with it'),
  starts: z.number().int(),
  bobbins: z.number().int().describe('bobbins wound with it'),
  needleM: z.number().describe('needle thread with waste and tails, m'),
  bobbinM: z.number().describe('bobbin thread with waste and tails, m'),
  spools: z
    .number()
    .int()
    .nullable()
    .describe('spools that hold both; null where the plan does not say what one holds'),
})

const band = z.strictObject({
  name: z.string(),
  filler: z.string().nullable().describe('the filler, or those of its sides or patches; null: not quilted'),
  repeats: z
    .strictObject({ top: z.number(), right: z.number(), bottom: z.number(), left: z.number() })
    .or(sides)
    .nullable(),
  stretch: stretch.nullable().describe('least and greatest length of a repeat over its nominal length'),
  stitchedMm: mm('length of line in this band'),
  mmPerCm2: z.number().describe('stitched length per area'),
  stitches: z.number().int(),
  gapMm: mm('diameter of the largest circle in the band that no stitching enters').nullable(),
  gapAt: place.nullable().describe("the circle's middle"),
  squareMm: mm('side of the largest such square with upright sides').nullable(),
  squareAt: place.nullable().describe("the square's middle"),
  ratio: z
    .number()
    .nullable()
    .describe('how many times denser than the quilted band inside it, or sparser; null for the first'),
  walkingFoot: walkingFoot.nullable(),
})

const region = z.strictObject({
  name: z.string(),
  shape: z.enum(['circle', 'polygon']),
  edgeMm: mm('length of its edge within the quilt and outside of other regions'),
  outlinedMm: mm('stitched along its edge because its outline is asked for'),
  roundMm: mm('run along its edge to get round it, part of the travel'),
  outlined: z.boolean().describe('its edge is stitched all round'),
  sizeMm: mm('diameter of the largest circle in it'),
  at: place.nullable().describe("the circle's middle"),
  withinLimit: z.boolean().describe("the circle is no larger than the batting's limit"),
})

const run = z.strictObject({
  kind: z.enum(['travel', 'overlap']),
  lengthMm: mm('length'),
  at: place,
  where: z.string().describe('band or seam, side, and distance from the corner'),
  reason: z.string(),
})

const choices = z
  .strictObject({
    spacing: z.enum(['own', 'auto']),
    density: z.enum(['light', 'medium', 'dense']),
    wantedMmPerCm2: z.number().describe('the amount of quilting that the density stands for'),
    made: z.array(
      z.strictObject({
        at: z.string().describe("a band's name, or centre"),
        part: z.string().nullable().describe('the side or the patches, if it is for these alone'),
        what: z.enum(['filler', 'spacing', 'filler and spacing']).describe('what the plan left open'),
        filler: z.string().nullable().describe('null: no filler suits'),
        value: z
          .strictObject({ name: z.string(), mm: mm('what was chosen for it') })
          .nullable()
          .describe('the value that sets how closely it is stitched; null: it has none, or keeps its own'),
        reason: z.string(),
      }),
    ),
    overLimit: z
      .array(
        z.strictObject({
          at: z.string().describe("a band's name, or quilt for the largest gap of all"),
          gapMm: mm('diameter of the gap'),
          overMm: mm("how much more that is than the batting's limit"),
          why: z.string().describe('why no choice makes it smaller'),
        }),
      )
      .describe("gaps past the batting's limit"),
    uneven: z
      .array(
        z.strictObject({
          at: z.string().describe("a band's name"),
          beside: z.string().describe('the quilted band inside it'),
          ratio: z.number().nullable().describe('null: one of them is bare'),
          why: z.string().describe('why no choice makes them more even'),
        }),
      )
      .describe('neighbours whose amounts of quilting differ by more than the limit of evenness'),
  })
  .describe('what was chosen where the plan says auto, and why')

/** The public format of report.json. */
export const reportFormat = z.strictObject({
  $schema: z.string(),
  version: z.literal(1),
  title: z.string(),
  units: z.enum(['in', 'cm', 'mm']).describe('the unit of the plan file; figures here are mm'),
  quilt: z.strictObject({ widthMm: mm('with the binding'), heightMm: mm('with the binding') }),
  washed: z
    .strictObject({
      batting: z.string().describe('kind of batting'),
      shrinkage: range.describe('least and greatest share by which it shrinks'),
      widthMm: range.describe('least and greatest width after washing, mm'),
      heightMm: range.describe('least and greatest height after washing, mm'),
    })
    .describe('the quilt after its first wash'),
  line: z.strictObject({
    lengthMm: mm('length of line'),
    threadStarts: z.number().int(),
    threadStartsBound: z.number().int().describe('no line has fewer starts'),
    travelMm: mm('in a seam, only to get somewhere'),
    overlapMm: mm('over a line that is already stitched'),
    overlapShare: z.number().describe('overlap over length'),
    lowerBoundMm: mm('no line over the same pieces with so few starts is shorter'),
    repositions: z.number().int().describe('how often the quilt is moved'),
    turning: z
      .strictObject({
        foot: z.enum(['free-motion', 'walking']),
        sectorDegrees: z
          .number()
          .describe('how wide the directions spread that are comfortable without a turn'),
        turns: z
          .number()
          .describe(
            'sum of all turns of the quilt either way, in full turns, so that a foot that feeds forward only can follow the line',
          ),
        weight: z
          .number()
          .describe('what a full turn weighs in the choice of the line, in moves of the quilt'),
      })
      .describe('turning the quilt'),
    repositionsBound: z.number().describe('quilt area over reach area'),
    areas: z.number().int(),
    strategies: z
      .array(
        z.strictObject({
          thread: z.string().describe('CSS colour'),
          way: z
            .enum(['areas', 'laps', 'frame'])
            .describe('area by area, a lap of each band, or by frame passes'),
          why: z.string(),
        }),
      )
      .describe('how the work with each thread is divided, and why so'),
    extras: z.array(run).describe('every travel and overlap, its place and its reason'),
  }),
  frame: z
    .strictObject({
      passes: z.number().int().describe('strips of the throat, top to bottom'),
      starts: z.number().int(),
      startsBound: z.number().int().describe('no work by these passes has fewer starts'),
      advances: z.number().int().describe('how often the quilt is rolled on'),
      throatMm: mm('depth of a strip'),
      strips: z.array(z.strictObject({ topMm: mm('upper edge'), bottomMm: mm('lower edge') })),
    })
    .optional()
    .describe('on a frame'),
  stitches: z.strictObject({ count: z.number().int(), lengthMm: mm('longest stitch') }),
  thread: z.strictObject({
    topM: z.number().describe('needle thread with waste, m'),
    bobbinM: z.number().describe('bobbin thread with waste, m'),
    bobbins: z.number().int(),
    capacityM: z.number().describe('thread on one bobbin, m'),
    capacityIsEstimate: z.boolean(),
    spoolM: z.number().nullable().describe('thread on one spool, m; null where the plan does not say'),
    changes: z
      .array(
        z.strictObject({
          start: z.number().int().describe('the thread start before which it is changed, from 1'),
          from: z.string().describe('CSS colour'),
          to: z.string().describe('CSS colour'),
          at: place,
          where: z.string(),
        }),
      )
      .describe('where another thread is put in, in the order of work'),
    changesBound: z.number().int().describe('no work over the same pieces changes the thread less often'),
    spools: z.array(spools).describe('by colour'),
    bobbinChanges: z.array(
      z.strictObject({ at: place, alongMm: mm('along the line'), where: z.string(), reason: z.string() }),
    ),
  }),
  time: z.strictObject({
    minutes: z.number(),
    parts: z.array(z.strictObject({ what: z.string(), minutes: z.number(), rate: z.string() })),
  }),
  gap: z.strictObject({
    largestMm: mm('diameter of the largest circle within the bands that no stitching enters'),
    at: place.nullable(),
    squareMm: mm('side of the largest such square with upright sides'),
    squareAt: place.nullable(),
    limitMm: mm("the batting's limit"),
    withinLimit: z.boolean(),
  }),
  bands: z.array(band),
  regions: z
    .array(region)
    .describe('regions kept free of stitching; one whose edge is stitched all round is left out of all gaps'),
  evenness: z.strictObject({
    worstRatio: z
      .number()
      .nullable()
      .describe('the greatest ratio of density between neighbours; null beside a bare one'),
    limit: z.number().describe('a ratio above this deserves a warning'),
  }),
  allOver: z
    .strictObject({ filler: z.string(), stitchedMm: mm('length of line'), mmPerCm2: z.number() })
    .optional()
    .describe('where one filler goes over the whole quilt; bands tell what of it lies in them'),
  choices: choices.optional(),
  warnings: z.array(warning),
})

export type Report = z.infer<typeof reportFormat>
export type Warning = z.infer<typeof warning>
export type Extra = z.infer<typeof run>

/** The JSON Schema of report.json. */
export const reportJsonSchema = (): unknown => z.toJSONSchema(reportFormat, { target: 'draft-7' })
