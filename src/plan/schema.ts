import * as z from 'zod'
import { LENGTH_UNITS } from '../units.ts'
import { LIMITS, RANGES, rangeText } from './limits.ts'

/** No control characters, halves of characters, or characters that turn the direction of what follows them. */
const PRINTABLE = /^[^\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069]*$/u

const length = (what: string) =>
  z
    .union([z.number(), z.string().max(LIMITS.length)])
    .describe(`${what}; a number in the plan's units, or a length such as 2.5 cm, 1 1/2 in, 3/4`)
const text = (most: number) => z.string().max(most).regex(PRINTABLE)
const word = text(LIMITS.word)
const name = (what: string) => text(LIMITS.name).regex(/\S/).describe(what)
const number = (what: string, range: readonly [number, number]) =>
  z.number().describe(`${what}, ${rangeText(range)}`)
const colour = (what: string) => word.describe(`${what}: a CSS colour`)

const sides = (what: string) =>
  z
    .union([
      length(what),
      z.strictObject({
        top: length(`${what} at the top`),
        right: length(`${what} on the right`),
        bottom: length(`${what} at the bottom`),
        left: length(`${what} on the left`),
      }),
    ])
    .describe(`${what}: a length, or { top, right, bottom, left }`)

const value = z
  .union([z.number(), word, z.boolean()])
  .describe('a value of the filler: "ditchline motifs NAME" tells them')
const filler = (what: string) =>
  z
    .union([
      word,
      z.record(word, z.record(word, value).nullable().describe('values of the filler: { spacing: 0.4 }')),
    ])
    .describe(`${what}: none, the name of a filler, or one with values: { s-echo: { spacing: 0.4 } }`)

const fabric = z
  .union([
    colour('colour of the fabric'),
    z
      .array(
        z.strictObject({
          colour: colour('one colour of the print'),
          share: number('its share of the fabric', RANGES.share),
        }),
      )
      .min(1)
      .max(LIMITS.colours),
  ])
  .describe('the fabric: a CSS colour, or a list of the colours of a print, each { colour, share }')

const corners = z
  .union([
    z.enum(['mitred', 'butted', 'cornerstone']),
    z.strictObject({
      butted: z
        .enum(['rows-first', 'columns-first'])
        .describe('which pair was sewn first: top and bottom (rows), or the sides (columns)'),
    }),
  ])
  .describe('how the corners are joined; mitred unless said')

const band = z
  .strictObject({
    name: name('what you call this band').optional(),
    width: sides('finished width').optional(),
    cut: sides('cut width, of which the seam allowances come off').optional(),
    filler: filler('what is quilted in it; nothing unless said').optional(),
    fabric: fabric.optional(),
    corners: corners.optional(),
  })
  .describe('a border; give its width or its cut')

const place = (what: string) =>
  z
    .union([
      word,
      z.strictObject({
        band: text(LIMITS.name).describe('the name of a band'),
        side: z.enum(['top', 'right', 'bottom', 'left']).describe('a side of that band'),
      }),
    ])
    .describe(
      `${what}: any, a corner (top-left, top-right, bottom-right, bottom-left), or { band, side }; any unless said`,
    )

const machine = z
  .strictObject({
    kind: z
      .enum(['domestic', 'frame'])
      .optional()
      .describe('a machine that the quilt is moved under, or one that moves on a frame'),
    reach: z
      .tuple([length('width of the reach'), length('height of the reach')])
      .optional()
      .describe('what is stitched without moving the quilt: [width, height]'),
    speed: number('stitches per minute', RANGES.speed).optional(),
  })
  .describe('the machine')

const stitch = z
  .strictObject({
    length: length('length of a stitch').optional(),
    perInch: number('stitches per inch, instead of a length', RANGES.perInch).optional(),
    tieOffs: z
      .number()
      .int()
      .optional()
      .describe(`very short stitches at either end of a thread, ${rangeText(RANGES.tieOffs)}`),
  })
  .describe('the stitches')

const thread = z
  .strictObject({
    tex: number('size of the thread in tex, grams per 1000 m', RANGES.threadSize).optional(),
    wt: number('weight of the thread, km per kg', RANGES.threadSize).optional(),
    denier: number('size of the thread in denier, grams per 9000 m', RANGES.threadSize).optional(),
    dtex: number('size of the thread in dtex, grams per 10 000 m', RANGES.dtex).optional(),
    nm: number('metric count of the thread, m per gram', RANGES.threadSize).optional(),
    ne: number('cotton count of the thread', RANGES.threadSize).optional(),
    colour: colour('colour of the thread').optional(),
    bobbin: z
      .union([
        length('thread on one bobbin'),
        z.strictObject({ class: z.enum(['L', '15', 'G', 'M']).describe('class of the bobbin') }),
      ])
      .optional()
      .describe('length wound on one bobbin (75 m, 80 yd), or its class: { class: L }'),
    waste: number('share added for waste', RANGES.share).optional(),
    candidates: z
      .array(z.strictObject({ name: name('what you call this thread'), colour: colour('its colour') }))
      .max(LIMITS.threads)
      .optional()
      .describe('threads to choose between, each { name, colour }'),
  })
  .describe('the thread')

const batting = z
  .strictObject({
    kind: word.optional().describe('kind of batting; cotton-scrim unless said'),
    limit: length("the label's greatest distance between lines of quilting").optional(),
    thickness: length('thickness of the sandwich under a stitch').optional(),
  })
  .describe('the batting')

const route = z
  .strictObject({
    start: place('where the line begins').optional(),
    end: place('where the line ends').optional(),
    order: z
      .enum(['any', 'middle-out', 'outside-in'])
      .optional()
      .describe('in which order the areas are worked; any unless said'),
    work: z.enum(['areas', 'laps']).optional().describe('area by area (unless said), or a lap per band'),
  })
  .describe('the way that the line takes')

/** The plan file, as written. */
export const planFormat = z
  .strictObject({
    $schema: z.string().optional().describe('where the JSON Schema of this file is, for editors'),
    title: text(LIMITS.name).optional().describe('what the quilt is called'),
    units: z.enum(LENGTH_UNITS).optional().describe('what a bare number means: in, cm or mm; in unless said'),
    centre: z
      .strictObject({
        width: length('finished width of the centre'),
        height: length('finished height of the centre'),
        filler: filler('what is quilted in the centre').optional(),
        fabric: fabric.optional(),
      })
      .describe('the middle of the quilt, inside the first band: { width, height }'),
    bands: z.array(band).min(1).max(LIMITS.bands).describe('the borders, from the inside out'),
    binding: length('what the binding covers on the front; 1/4 in unless said').optional(),
    bindingFabric: colour('colour of the binding').optional(),
    machine: machine.optional(),
    stitch: stitch.optional(),
    thread: thread.optional(),
    batting: batting.optional(),
    route: route.optional(),
    seed: z
      .number()
      .int()
      .min(RANGES.seed[0])
      .max(RANGES.seed[1])
      .optional()
      .describe('a whole number that changes what is irregular in a filler'),
  })
  .describe('a plan: centre, bands and what they are worked with')

export type PlanFile = z.infer<typeof planFormat>

/** The JSON Schema of a plan file, for editors. */
export const planJsonSchema = (): unknown => z.toJSONSchema(planFormat, { io: 'input', target: 'draft-7' })
