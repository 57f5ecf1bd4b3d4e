import { MOTIFS } from '../../../motifs/index.ts'
import { LIBRARY } from '../../../motifs/library.ts'
import { pathData } from '../../export/path-data.ts'
import type { Point } from '../../geometry/point.ts'
import type { Motif, Params, ValuesOf } from '../../motif/contract.ts'
import { fillPatch } from '../../pieces/patch-fillers/contract.ts'
import { PATCH_FILLERS } from '../../pieces/patch-fillers/index.ts'
import { defaultValues } from '../../plan/settle-filler.ts'
import type { Family, Swatch, SwatchWish } from './messages.ts'

/** A strip at least this many widths long is drawn, and never more than so many mm: enough to know a filler by. */
const WIDTHS = 5
const MOST_MM = 260

const drawn = new Map<string, Swatch>()
/** More than the bands of any quilt, and little enough to keep. */
const MOST_KEPT = 400

/** A motif with its name, and its values if they are not the usual ones. */
interface Drawable {
  readonly name: string
  readonly motif: Motif
  readonly values?: ValuesOf<Params>
}

/** A filler in a straight strip of this width, as path data; one of the library that was drawn before is not drawn again. */
export function swatchOf(drawable: Drawable, width: number): Swatch {
  const { name, motif, values } = drawable
  if (MOTIFS[name] !== motif) return drawSwatch(drawable, width)
  const key = JSON.stringify([name, width, values])
  const known = drawn.get(key)
  if (known) return known
  if (drawn.size >= MOST_KEPT) drawn.clear()
  const swatch = drawSwatch(drawable, width)
  drawn.set(key, swatch)
  return swatch
}

function drawSwatch({ motif, values }: Drawable, width: number): Swatch {
  const settled = values ?? defaultValues(motif.params, width)
  const repeat = motif.repeat(width, settled)
  const wanted = Math.min(MOST_MM, Math.max(WIDTHS * width, 2 * repeat, 90))
  const repeats = Math.max(1, Math.round(wanted / repeat))
  const length = repeats * repeat
  const { stroke } = motif.draw(
    { length, width, from: 'inner', to: 'inner', repeats, mirrorStart: false, mirrorEnd: false, seed: 1 },
    settled,
  )
  return { data: pathData(stroke, 2), width, length }
}

/** Cloth that is no strip is drawn as a square, or as a window of this size at the most, mm. */
const WINDOW = { width: 210, height: 130 }

/** How each family is drawn in cloth of a width, mm: what does not suit it is left out. */
const DRAWN: Readonly<Record<Family, (width: number) => Record<string, Swatch | undefined>>> = {
  bands: (width) =>
    mapValues(MOTIFS, (motif, name) =>
      motif.suits.min <= width + 1e-6 ? swatchOf({ name, motif }, width) : undefined,
    ),
  centre: (size) =>
    mapValues(LIBRARY.centres, ({ fill, params, suitsFrom }) => {
      if (size < suitsFrom) return undefined
      const [width, height] = [Math.min(size, WINDOW.width), Math.min(size, WINDOW.height)]
      const { stroke } = fill({ width, height, seed: 1 }, defaultValues(params, size))
      return { data: pathData(stroke, 2), width: height, length: width }
    }),
  corners: (width) =>
    mapValues(LIBRARY.corners, ({ draw, params, suits }) => {
      if (width < suits.min) return undefined
      const square = { width, height: width, entry: [0, 0], exit: [width, width] } as const
      return { data: pathData(draw(square, defaultValues(params, width)), 2), width, length: width }
    }),
  patches: (width) =>
    mapValues(PATCH_FILLERS, (filler, name) => {
      const square: Point[] = [
        [0, 0],
        [width, 0],
        [width, width],
        [0, width],
      ]
      const strokes = fillPatch({ name, filler, values: {} }, square)
      // What lies in the patch's own seams is stitched a little inside of them here, where it can be seen.
      const seam = filler.ditch ? `M1 1H${width - 1}V${width - 1}H1Z` : ''
      const data = [...strokes.map((stroke) => pathData(stroke, 2)), seam].join(' ')
      return { data, width, length: width }
    }),
}

/** Every filler of a family that can be drawn at a width, each with its usual values. */
export const drawSwatches = ({ family, width }: SwatchWish): Record<string, Swatch> =>
  Object.fromEntries(
    Object.entries(DRAWN[family](width)).flatMap(([id, swatch]) => (swatch ? [[id, swatch]] : [])),
  )

const mapValues = <T, U>(
  record: Readonly<Record<string, T>>,
  to: (value: T, key: string) => U,
): Record<string, U> =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, to(value, key)]))
