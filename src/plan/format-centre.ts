import * as z from 'zod'
import { OUTLINE_NAMES } from '../quilt/outline-names.ts'
import { DEFAULTS } from './defaults.ts'
import { fabric, length, optional } from './format-parts.ts'

const SHAPE =
  'its outline: a rectangle by width and height; a hexagon or an octagon with a level side on top, or a square on point, by across'

const width = length.describe('of a rectangle: finished width, a length')
const height = length.describe('of a rectangle: finished height, a length')
const across = length.describe(
  'of any other shape: finished size from flat to flat, a length; of a square on point its side',
)

/** What every centre may have. */
const looks = (filler: z.ZodType) => ({
  filler: optional(
    filler,
    'none, auto (the program chooses), or a filler for the centre, with values if you like',
    'none',
  ),
  fabric: optional(
    fabric,
    'a CSS colour, or the colours of a print with their shares',
    DEFAULTS.centreFabric,
  ),
})

/** The centre while a file is read: which sizes belong to which shape is checked later, with a better message. */
export const openCentre = (filler: z.ZodType): z.ZodType =>
  z.strictObject({
    shape: optional(z.enum(OUTLINE_NAMES), SHAPE, 'rectangle'),
    width: width.optional(),
    height: height.optional(),
    across: across.optional(),
    ...looks(filler),
  })

/** The centre as it must be written, for an editor. */
export function exactCentre(filler: z.ZodType): z.ZodType {
  const [rectangle, ...others] = OUTLINE_NAMES
  return z.union([
    z.strictObject({
      shape: optional(z.literal(rectangle), SHAPE, rectangle),
      width,
      height,
      ...looks(filler),
    }),
    z.strictObject({
      shape: z.enum(others as [string, ...string[]]).describe(SHAPE),
      across,
      ...looks(filler),
    }),
  ])
}
