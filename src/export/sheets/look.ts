import { LABELS } from '../labels.ts'
import type { Pen } from '../shape/shape.ts'

/** Pens of the sheets. */
export const PENS = {
  stitch: { colour: '#000000', width: 0.5 },
  seam: { colour: '#9a9a9a', width: 0.25 },
  mark: { colour: '#1f4e79', width: 0.2 },
  trim: { colour: '#1f4e79', width: 0.12, dash: [1.5, 2.5] },
  ink: { colour: '#000000', width: 0.25 },
  thin: { colour: '#9a9a9a', width: 0.2 },
} as const satisfies Record<string, Pen>

/** The blue of everything that is guidance and not stitched. */
export const GUIDE = '#1f4e79'
export const GREY = '#6b6b6b'

/** Names of the layers as a viewer lists them. */
export const LAYERS = LABELS.layers
