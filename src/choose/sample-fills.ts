import type { Point } from '../geometry/point.ts'
import { drawStretch, type Filler } from '../motif/draw-stretch.ts'
import type { CentreFill } from '../pieces/centre-piece.ts'
import { fillPatch, type PatchFill } from '../pieces/patch-fillers/contract.ts'
import type { Sample } from './measure.ts'

/** How many repeats a strip's sample has, and how many widths it is long, at least. */
const REPEATS = 2
const WIDTHS = 3
/** The least of the straight part beside a mitre, in widths. */
const STRAIGHT = 1
/** The sides of a centre's sample are at most this long, mm: its fillers are the same throughout. */
const CENTRE = 260

/**
 * A filler from the middle of a side to its mitre.
 *
 * @param width    mm
 * @param stretch  the length of its repeats over the nominal one
 */
export function sampleStrip(filler: Filler, width: number, stretch = 1): Sample {
  const { motif, values } = filler
  const repeat = motif.repeat(width, values)
  const count = Math.max(REPEATS, Math.ceil((WIDTHS * width) / repeat))
  const inner = Math.max(count * repeat * stretch - width / 2, STRAIGHT * width)
  const { stroke } = drawStretch(filler, {
    stretch: { width, start: { inner: 0, outer: 0 }, end: { inner, outer: inner + width } },
    from: 'inner',
    to: 'inner',
    halfRepeats: 2 * count,
    atMiddle: true,
    atCorner: true,
    seed: 1,
  })
  const outline: Point[] = [
    [0, 0],
    [inner, 0],
    [inner + width, width],
    [0, width],
  ]
  return { strokes: [stroke], outline }
}

/** A filler in one patch. @param outline  corners clockwise on the screen, mm */
export const samplePatch = (fill: PatchFill, outline: readonly Point[]): Sample => ({
  strokes: fillPatch(fill, outline),
  outline,
})

/** A filler in the middle of the quilt, or in a part of it where that is large. @param size  mm */
export function sampleCentre({ filler, values }: CentreFill, size: Point): Sample {
  const [width, height] = size.map((side) => Math.min(side, CENTRE)) as [number, number]
  return {
    strokes: [filler.fill({ width, height, seed: 1 }, values).stroke],
    outline: [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
  }
}
