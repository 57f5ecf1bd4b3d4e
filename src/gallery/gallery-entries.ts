import type { CentreFiller } from '../motif/centre-contract.ts'
import type { Motif } from '../motif/contract.ts'
import type { CornerMotif } from '../motif/corner-contract.ts'
import { defaultValues } from '../plan/settle-filler.ts'
import { inches } from '../units.ts'
import { bandFigure } from './band-figure.ts'
import type { GalleryEntry } from './figure.ts'
import { patchFigure, type Size } from './patch-figure.ts'
import { rangeText, sizeText } from './size-text.ts'

/** How many sizes a filler is drawn at. */
const SIZES = 4

/** A motif in bands of four widths, from the narrowest that suits to the widest. */
export function motifEntry(name: string, motif: Motif): GalleryEntry {
  const { title, source, params, suits } = motif
  return {
    name,
    title,
    source,
    params,
    suits: `bands of ${rangeText(suits.min, suits.max)}`,
    figures: stepsBetween(suits.min, suits.max).map((width) =>
      bandFigure({ name, motif, values: defaultValues(params, width) }, width),
    ),
  }
}

/** A centre filler in rectangles of four sizes and proportions. */
export function centreEntry(name: string, filler: CentreFiller): GalleryEntry {
  const { title, source, params, suitsFrom } = filler
  const sizes: readonly Size[] = [
    { width: suitsFrom, height: suitsFrom },
    { width: inches(12), height: inches(6) },
    { width: inches(10), height: inches(15) },
    { width: inches(24), height: inches(24) },
  ]
  return {
    name,
    title,
    source,
    params,
    suits: `centres of ${sizeText(suitsFrom)} and up`,
    figures: sizes.map((size) => {
      const values = defaultValues(params, Math.min(size.width, size.height))
      return patchFigure(filler.fill({ ...size, seed: 1 }, values).stroke, size)
    }),
  }
}

/** A corner motif in squares of four sizes, entered and left at opposite corners. */
export function cornerEntry(name: string, motif: CornerMotif): GalleryEntry {
  const { title, source, params, suits } = motif
  return {
    name,
    title,
    source,
    params,
    suits: `cornerstones of ${rangeText(suits.min, suits.max)}`,
    figures: stepsBetween(suits.min, suits.max).map((side) => {
      const patch = { width: side, height: side, entry: [0, 0], exit: [side, side] } as const
      return patchFigure(motif.draw(patch, defaultValues(params, side)), patch)
    }),
  }
}

/** Even steps in ratio from the least to the greatest. */
const stepsBetween = (min: number, max: number): number[] =>
  Array.from({ length: SIZES }, (_, i) => min * (max / min) ** (i / (SIZES - 1)))
