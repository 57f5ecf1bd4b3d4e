import * as z from 'zod'
import { ANY_SIDE } from '../quilt/outline-names.ts'
import { LENGTH_UNITS, toUnit } from '../units.ts'
import { DEFAULTS } from './defaults.ts'
import { openCentre } from './format-centre.ts'
import {
  colour,
  fabric,
  fillerOfSides,
  length,
  lengthOfSides,
  name,
  optional,
  point,
  polygon,
  share,
} from './format-parts.ts'
import { LIMITS } from './limits.ts'
import { BATTINGS } from './materials.ts'
import { BOBBIN_CLASSES, REGION_OUTLINES } from './plan.ts'

/** How fillers and names look: open while a file is read (they are checked against the catalog), listed for an editor. */
export interface Vocabulary {
  readonly bandFiller: z.ZodType
  readonly sideFiller: z.ZodType
  readonly centre: z.ZodType
  readonly allOver: z.ZodType
  readonly cornerMotif: z.ZodType
  readonly unit: z.ZodType
}

const anyFiller = z.union([z.string().max(LIMITS.name), z.record(z.string(), z.unknown())], {
  error: 'none, the name of a filler, or a filler with values: { name: { value: 1 } }',
})

/** Any name will do: what it means is checked later, with a better message. */
const OPEN: Vocabulary = {
  bandFiller: anyFiller,
  sideFiller: anyFiller,
  centre: openCentre(anyFiller),
  allOver: anyFiller,
  cornerMotif: name,
  unit: name,
}

const inInches = (mm: number) => ({ text: `${Number(toUnit(mm, 'in').toPrecision(4))} in` })
const inMm = (mm: number) => ({ text: `${mm} mm` })
const seconds = z.number()

const pieced = ({ unit }: Vocabulary) =>
  z.strictObject({
    unit: unit.describe('the unit that is set along the band: its name, or a name for one drawn by polygons'),
    size: optional(length, 'finished size of a unit across the band, a length', { text: "the band's width" }),
    fabrics: optional(
      z.record(z.string(), colour.describe('CSS colour')),
      'a CSS colour for each patch name',
      {
        text: "the band's fabric",
      },
    ),
    polygons: optional(
      z
        .array(
          z.strictObject({
            name: name.describe('name of the patch; several may share it'),
            points: z
              .array(
                z.tuple([z.number(), z.number()], {
                  error: 'a place [x, y] in the unit square, each 0 to 1',
                }),
              )
              .min(3)
              .max(LIMITS.polygon)
              .describe(
                'corners in the unit square: x along the band, y from the inner seam outward, 0 to 1',
              ),
          }),
        )
        .min(1)
        .max(LIMITS.patches),
      'the patches of a unit of your own; they fill the unit square without overlapping',
    ),
  })

const corners = z.union(
  [
    z.enum(['mitred', 'butted', 'cornerstone']),
    z.strictObject({
      butted: z
        .enum(['rows-first', 'columns-first'])
        .describe('which pair was sewn first: top and bottom (rows), or the sides (columns)'),
    }),
  ],
  { error: 'mitred, butted, cornerstone, { butted: rows-first } or { butted: columns-first }' },
)

const band = (vocabulary: Vocabulary) =>
  z.strictObject({
    name: optional(name, 'what you call this band', { text: '"band 1", "band 2", ...' }),
    width: optional(
      lengthOfSides,
      'finished width, a length; for all sides or { top, right, bottom, left }. Or give cut',
    ),
    cut: optional(
      lengthOfSides,
      'width as cut, a length, instead of width: two seam allowances of 1/4 in come off; of the outermost band one, and what the binding covers',
    ),
    filler: optional(
      vocabulary.bandFiller,
      'none, auto (the program chooses), the name of a filler, a filler with values { s-echo: { spacing: 0.4 } }, or in a pieced band a filler for each patch name',
      'none',
    ),
    sides: optional(fillerOfSides(vocabulary.sideFiller), "sides whose filler differs from the band's"),
    fabric: optional(fabric, 'a CSS colour, or the colours of a print with their shares', {
      text: `${DEFAULTS.fabrics[0]} and ${DEFAULTS.fabrics[1]} in turn`,
    }),
    corners: optional(corners, 'how the corners are joined; butted means { butted: rows-first }', 'mitred'),
    cornerstone: optional(vocabulary.cornerMotif, 'the motif in the cornerstones', 'none'),
    pieced: optional(pieced(vocabulary), 'what the band is pieced of', { text: 'whole strips' }),
    thread: optional(colour, 'CSS colour of the thread, for a line of its own', {
      text: "part of the quilt's line",
    }),
  })

const drawnMotif = z.strictObject({
  drawing: optional(
    z.string().max(LIMITS.name),
    'an SVG file beside the plan with one path: a repeat from its left end to its right end. Or give path',
  ),
  path: optional(z.string().max(LIMITS.path), 'SVG path data of the repeat, instead of a drawing'),
  suits: optional(
    z.tuple([length, length], { error: 'two lengths: [narrowest, widest]' }),
    'finished widths of the bands that it suits, two lengths',
    { text: '[0.5, 8] in inches' },
  ),
})

const place = z.union(
  [
    z.string().max(LIMITS.name),
    z.strictObject({
      band: name.describe('name of a band'),
      side: z.enum(ANY_SIDE).describe('the side in whose middle the line begins or ends'),
    }),
  ],
  { error: 'any, a corner such as top-left, or { band, side }' },
)

const machine = z.strictObject({
  kind: optional(
    z.enum(['domestic', 'frame']),
    'domestic: you move the quilt; frame: the machine moves, strip by strip',
    DEFAULTS.machine.kind,
  ),
  foot: optional(
    z.enum(['free-motion', 'walking']),
    'free-motion, or walking: only straight and gently curved lines can be stitched, and only such fillers are chosen',
    DEFAULTS.machine.foot,
  ),
  sector: optional(
    z.number(),
    'with a walking foot: how wide the directions spread that are comfortable without turning the quilt, degrees, 10 to 360',
    DEFAULTS.machine.sector,
  ),
  reach: optional(
    z.tuple([length, length], { error: 'two lengths: [width, height]' }),
    'width and height that are stitched without moving the quilt, two lengths',
    { text: '[14, 14] in inches' },
  ),
  throat: optional(length, 'on a frame: usable depth of a strip, a length', { text: "reach's height" }),
  overlap: optional(
    length,
    'on a frame: how far strips overlap, a length',
    inInches(DEFAULTS.machine.overlap),
  ),
  speed: optional(z.number(), 'stitches per minute, 10 to 10000', DEFAULTS.machine.speed),
  tightCurveSpeed: optional(
    share,
    'share of the speed that is kept in tight curves, 0.05 to 1',
    DEFAULTS.machine.tightCurveSpeed,
  ),
  tightRadius: optional(
    length,
    'a curve is tight below this radius, a length',
    inMm(DEFAULTS.machine.tightRadius),
  ),
  repositionSeconds: optional(seconds, 'seconds to move the quilt', DEFAULTS.machine.repositionSeconds),
  bobbinSeconds: optional(seconds, 'seconds to change the bobbin', DEFAULTS.machine.bobbinSeconds),
  startSeconds: optional(seconds, 'seconds to start and end a thread', DEFAULTS.machine.startSeconds),
  advanceSeconds: optional(seconds, 'seconds to roll a framed quilt on', DEFAULTS.machine.advanceSeconds),
  threadSeconds: optional(seconds, 'seconds to put in another thread', DEFAULTS.machine.threadSeconds),
  turnSeconds: optional(
    seconds,
    'with a walking foot: seconds to turn the quilt once right round',
    DEFAULTS.machine.turnSeconds,
  ),
})

const stitch = z.strictObject({
  length: optional(length, 'length of a stitch, a length. Or give perInch', inMm(DEFAULTS.stitch.length)),
  perInch: optional(z.number(), 'stitches per inch, instead of length'),
  chordTolerance: optional(
    length,
    'how far a stitch may cut a curve, a length',
    inMm(DEFAULTS.stitch.chordTolerance),
  ),
  tieOff: optional(
    z.strictObject({
      count: optional(z.int(), 'how many stitches, 0 to 30', DEFAULTS.stitch.tieOff.count),
      length: optional(length, 'length of each, a length', inMm(DEFAULTS.stitch.tieOff.length)),
    }),
    'the very short stitches at either end of a thread',
  ),
})

const threadSize = z.union([z.number(), z.string().max(LIMITS.text)], {
  error: 'a number, or a number with plies such as 40/2',
})

const thread = z.strictObject({
  tex: optional(threadSize, 'size in tex, g per km', DEFAULTS.thread.tex),
  weight: optional(threadSize, 'size as weight (wt), km per kg, instead of tex'),
  denier: optional(threadSize, 'size in denier, g per 9 km, instead of tex'),
  nm: optional(threadSize, 'size in Nm, m per g, instead of tex; 80/2 for two plies'),
  ne: optional(threadSize, 'size in Ne, hanks of 840 yd per lb, instead of tex; 40/2 for two plies'),
  colour: optional(colour, 'CSS colour', DEFAULTS.thread.colour),
  bobbin: optional(
    z.union(
      [
        length,
        z.strictObject({
          class: z
            .union([z.enum(BOBBIN_CLASSES), z.literal(15)], { error: 'L, 15 or M' })
            .describe('class of the bobbin; what it holds is estimated'),
        }),
      ],
      { error: 'a length such as 75 m or 80 yd, or { class: L }' },
    ),
    'thread wound on a bobbin, a length such as 75 m or 80 yd, or its class',
    { text: 'class L' },
  ),
  spool: optional(length, 'thread on a spool, a length such as 1000 m', { text: 'not counted' }),
  tail: optional(length, 'thread left at either end of a line, a length', inMm(DEFAULTS.thread.tail)),
  waste: optional(share, 'share added for waste, 0 to 1', DEFAULTS.thread.waste),
  candidates: optional(
    z
      .array(
        z.strictObject({
          name: name.describe('what you call this thread'),
          colour: colour.describe('CSS colour'),
        }),
      )
      .max(LIMITS.threads),
    'threads to choose between',
  ),
})

const batting = z.strictObject({
  kind: optional(
    z.enum(Object.keys(BATTINGS) as [keyof typeof BATTINGS]),
    'kind of batting',
    DEFAULTS.batting.kind,
  ),
  limit: optional(length, "the label's greatest distance between lines of quilting, a length", {
    text: 'the usual one of its kind',
  }),
  thickness: optional(length, 'thickness of the whole sandwich under a stitch, a length', {
    text: 'the usual one of its kind',
  }),
  shrinkage: optional(share, 'share by which it shrinks in the wash, 0 to 0.5', {
    text: 'the usual one of its kind',
  }),
})

const seam = z.strictObject({
  inside: optional(name, 'name of a band: the seam at its inner edge'),
  corners: optional(name, 'name of a band: the seams of its corners'),
  patches: optional(name, 'name of a pieced band: the seams between its patches'),
})

const route = z.strictObject({
  start: optional(place, 'where the line starts: any, a corner (top-left, ...), or { band, side }', 'any'),
  end: optional(place, 'where the line ends: any, a corner (top-left, ...), or { band, side }', 'any'),
  order: optional(
    z.enum(['any', 'middle-out', 'outside-in']),
    'the order in which areas are worked',
    DEFAULTS.route.order,
  ),
  turning: optional(
    z.number(),
    'what turning the quilt once right round weighs, in moves of the quilt, 0 to 100',
    { text: '0.5 with a walking foot, else 0' },
  ),
  work: optional(
    z.enum(['any', 'areas', 'laps']),
    'areas: area by area; laps: a lap of each band; any: whichever costs less',
    DEFAULTS.route.work,
  ),
  ditch: optional(
    z.union([z.enum(['none', 'all', 'rings']), z.array(seam).max(LIMITS.seams)], {
      error: 'none, all, rings, or a list of { inside: band }, { corners: band }, { patches: band }',
    }),
    'the seams to stitch in the ditch: none, rings (between bands), all, or a list',
    'none',
  ),
  ditchOrder: optional(
    z.enum(['any', 'first', 'along']),
    'when these seams are stitched: first, before everything else; along, as part of the line; any, whichever costs less',
    DEFAULTS.route.ditchOrder,
  ),
})

const region = z.strictObject({
  circle: optional(
    z.strictObject({
      at: point.describe('its middle [x, y], two lengths'),
      radius: length.describe('its radius, a length'),
    }),
    'a circle to stay out of',
  ),
  polygon: optional(polygon, 'corners [x, y] of a polygon to stay out of, lengths'),
  name: optional(name, 'what you call this region', { text: '"region 1", "region 2", ...' }),
  outline: optional(
    z.enum(REGION_OUTLINES),
    'whole: its edge is stitched all round; as-needed: only where the line has to get round it',
    'whole',
  ),
})

const three = z.tuple([length, length, length], { error: 'three lengths' })

const measured = z.strictObject({
  band: name.describe('name of a band, or centre'),
  across: three.describe(
    'left to right: at the top edge, through the middle, at the bottom edge; three lengths',
  ),
  down: three.describe(
    'top to bottom: at the left edge, through the middle, at the right edge; three lengths',
  ),
  diagonals: optional(
    z.tuple([length, length], { error: 'two lengths' }),
    'top left to bottom right, top right to bottom left; two lengths',
    { text: 'taken for square' },
  ),
})

/** The plan file, with these names of fillers, motifs and units. */
export const formatOf = (vocabulary: Vocabulary) =>
  z
    .strictObject({
      $schema: optional(z.string().max(1000), 'the JSON Schema of plan files, for editors'),
      title: optional(name, 'what the quilt is called', DEFAULTS.title),
      units: optional(z.enum(LENGTH_UNITS), 'what a bare number means as a length', DEFAULTS.units),
      centre: vocabulary.centre.describe('the middle of the quilt, inside the first band'),
      bands: z.array(band(vocabulary)).min(1).max(LIMITS.bands).describe('the borders, from the inside out'),
      allOver: optional(
        vocabulary.allOver,
        'one filler over the whole quilt, whatever its bands are; the bands and the centre then have none',
        'none',
      ),
      motifs: optional(
        z.record(z.string().max(LIMITS.name), drawnMotif),
        'motifs of your own, by name; a band then names them as its filler',
      ),
      binding: optional(
        length,
        'what the binding covers on the front, a length: nothing is stitched there',
        inInches(DEFAULTS.binding),
      ),
      bindingFabric: optional(colour, 'CSS colour of the binding', DEFAULTS.bindingFabric),
      machine: optional(machine, 'the machine and how fast you work'),
      stitch: optional(stitch, 'the stitches'),
      thread: optional(thread, 'the thread'),
      batting: optional(batting, 'the batting'),
      spacing: optional(
        z.enum(['own', 'auto']),
        'own: every filler has its own spacing; auto: spacings that you do not give are chosen for even quilting within the limit of the batting',
        DEFAULTS.spacing,
      ),
      density: optional(
        z.enum(['light', 'medium', 'dense']),
        'how dense the quilting is meant to be, where spacings or fillers are chosen',
        DEFAULTS.density,
      ),
      route: optional(route, 'the way of the line'),
      avoid: optional(
        z.array(region).max(LIMITS.regions),
        'regions that no stitching may enter, measured from the top left finished corner of the quilt',
      ),
      measured: optional(
        z.array(measured).max(LIMITS.bands + 1),
        'outer sizes as measured on the real quilt; they win over the planned ones',
      ),
      seed: optional(
        z.int().min(0).max(LIMITS.seed),
        'a whole number that changes what is irregular',
        DEFAULTS.seed,
      ),
    })
    .describe('a plan for one quilting line through all the borders of a quilt')

/** The plan file, as written; names of fillers are open. */
export const planFormat = formatOf(OPEN)
