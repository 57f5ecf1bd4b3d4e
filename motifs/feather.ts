import { cubic } from '../src/geometry/segment.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawnFree, freeStrip } from '../src/motif/free-end.ts'
import { growVine } from '../src/motif/vine.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Feather',
  source: 'plumes on both sides of a waving spine, drawn in one pass; common practice',
  params: {
    plume: {
      kind: 'length',
      label: 'Width of a plume',
      default: { widths: 0.16 },
      min: inches(0.3),
      max: inches(1.5),
    },
    wave: { kind: 'ratio', label: 'Length of a wave, in widths', default: 3, min: 2, max: 8 },
  },
  suits: { min: inches(2.5), max: inches(9) },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { wave }) => (wave / 2) * width,
  draw: (strip, { plume, wave }) =>
    drawnFree(
      strip,
      growVine(freeStrip(strip), {
        halfWave: (wave / 2) * strip.width,
        swing: 0.1,
        step: Math.min(0.3 * strip.width, Math.max(0.1 * strip.width, plume)),
        leaf: PLUME,
        lean: 0.9,
        stand: 'close',
        least: 0.1 * strip.width,
        margin: 0.025 * strip.width,
      }),
    ),
})

/** Slender at the spine, round at the head. */
const PLUME = [
  cubic([-0.05, 0.25], [-0.47, 0.45], [-0.47, 0.76]),
  cubic([-0.47, 0.92], [-0.26, 1], [0, 1]),
  cubic([0.26, 1], [0.47, 0.92], [0.47, 0.76]),
  cubic([0.47, 0.45], [0.12, 0.25], [0, 0]),
]
