import * as z from 'zod'
import { LENGTH_UNITS } from '../units.ts'
import { LIMITS } from './limits.ts'

const length = (what: string) =>
  z
    .union([z.number(), z.string().max(40)], {
      error: 'expected a length: a number, or text such as 2.5 cm or 1 1/2 in',
    })
    .describe(`${what}; a number in the plan's units, or with a unit: 2.5 cm, 1 1/2 in, 3/4`)
const name = (what: string) => z.string().min(1).max(LIMITS.name).describe(what)
const colour = z.string().max(60).describe('CSS colour')

const sides = (what: string) =>
  z.union([
    length(what),
    z.strictObject({ top: length(what), right: length(what), bottom: length(what), left: length(what) }),
  ])

const value = z.union([z.number(), z.string().max(60), z.boolean()])
const filler = z
  .union([z.string().max(60), z.record(z.string(), z.record(z.string(), value).nullable())])
  .describe('none, the name of a filler, or a filler with values: { s-echo: { spacing: 0.4 } }')

const fabric = z
  .union([
    colour,
    z
      .array(z.strictObject({ colour, share: z.number().describe('share of the fabric, 0 to 1') }))
      .min(1)
      .max(12),
  ])
  .describe('a CSS colour, or the colours of a print with their shares')

const corners = z
  .union([
    z.enum(['mitred', 'butted', 'cornerstone']),
    z.strictObject({
      butted: z
        .enum(['rows-first', 'columns-first'])
        .describe('which pair was sewn first: top and bottom, or the sides'),
    }),
  ])
  .describe('how the corners are joined; mitred unless said')

const band = z.strictObject({
  name: name('what you call this band').optional(),
  width: sides('finished width').optional(),
  cut: sides('cut width: seam allowances come off').optional(),
  filler: filler.optional(),
  fabric: fabric.optional(),
  corners: corners.optional(),
})

const place = z
  .union([
    z.string().max(60),
    z.strictObject({ band: z.string().max(LIMITS.name), side: z.enum(['top', 'right', 'bottom', 'left']) }),
  ])
  .describe('any, a corner (top-left, top-right, bottom-right, bottom-left), or a band and a side')

/** The plan file, as written. */
export const planFormat = z.strictObject({
  $schema: z.string().optional(),
  title: z.string().max(LIMITS.name).optional().describe('what the quilt is called'),
  units: z.enum(LENGTH_UNITS).optional().describe('what a bare number means: in, cm or mm; in unless said'),
  centre: z
    .strictObject({
      width: length('finished width of the centre'),
      height: length('finished height of the centre'),
      filler: filler.optional(),
      fabric: fabric.optional(),
    })
    .describe('the middle of the quilt, inside the first band'),
  bands: z.array(band).min(1).max(LIMITS.bands).describe('the borders, from the inside out'),
  binding: length('what the binding covers on the front').optional(),
  bindingFabric: colour.optional(),
  machine: z
    .strictObject({
      kind: z.enum(['domestic', 'frame']).optional(),
      reach: z
        .tuple([length('width'), length('height')])
        .optional()
        .describe('what is stitched without moving the quilt'),
      speed: z.number().optional().describe('stitches per minute'),
    })
    .optional(),
  stitch: z
    .strictObject({
      length: length('length of a stitch').optional(),
      perInch: z.number().optional().describe('stitches per inch, instead of a length'),
      tieOffs: z.number().int().optional().describe('very short stitches at either end of a thread'),
    })
    .optional(),
  thread: z
    .strictObject({
      tex: z.number().optional(),
      wt: z.number().optional().describe('km per kg'),
      denier: z.number().optional(),
      nm: z.number().optional(),
      ne: z.number().optional(),
      colour: colour.optional(),
      bobbin: z
        .union([length('thread on one bobbin'), z.strictObject({ class: z.enum(['L', '15', 'G', 'M']) })])
        .optional()
        .describe('length wound on one bobbin (75 m, 80 yd), or its class'),
      waste: z.number().optional().describe('share added for waste: 0.15'),
      tail: length('thread left at either end of a thread, to bury').optional(),
      spool: length('thread on one spool or cone').optional(),
      candidates: z
        .array(z.strictObject({ name: name('what you call this thread'), colour }))
        .max(LIMITS.threads)
        .optional(),
    })
    .optional(),
  batting: z
    .strictObject({
      kind: z.string().max(60).optional(),
      limit: length("the label's greatest distance between lines of quilting").optional(),
      thickness: length('thickness of the sandwich under a stitch').optional(),
    })
    .optional(),
  time: z
    .strictObject({
      tightCurveSpeed: z.number().optional().describe('share of the speed that is kept in tight curves: 0.6'),
      tightRadius: length('a curve is tight below this radius').optional(),
      reposition: z.number().optional().describe('to move the quilt, seconds'),
      bobbin: z.number().optional().describe('to change a bobbin, seconds'),
      start: z.number().optional().describe('to start and end a thread, seconds'),
      advance: z.number().optional().describe('to roll a framed quilt on, seconds'),
    })
    .optional()
    .describe('how long things take'),
  route: z
    .strictObject({
      start: place.optional(),
      end: place.optional(),
      order: z.enum(['any', 'middle-out', 'outside-in']).optional(),
      work: z.enum(['areas', 'laps']).optional().describe('area by area, or a lap per band'),
    })
    .optional(),
  seed: z
    .number()
    .int()
    .min(0)
    .max(2 ** 31)
    .optional()
    .describe('changes what is irregular in a filler'),
})

export type PlanFile = z.infer<typeof planFormat>

/** The JSON Schema of a plan file, for editors. */
export const planJsonSchema = (): unknown => z.toJSONSchema(planFormat, { io: 'input', target: 'draft-7' })
