import { cubic } from '../src/geometry/segment.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawnFree, freeStrip } from '../src/motif/free-end.ts'
import { growVine } from '../src/motif/vine.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Leaf vine',
  source: 'pointed leaves on both sides of a waving vine, drawn in one pass; common practice',
  params: {
    leaf: {
      kind: 'length',
      label: 'Width of a leaf',
      default: { widths: 0.36 },
      min: inches(0.4),
      max: inches(3),
    },
    wave: { kind: 'ratio', label: 'Length of a wave, in widths', default: 2.6, min: 2.4, max: 7 },
  },
  suits: { min: inches(1.5), max: inches(7) },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { wave }) => (wave / 2) * width,
  draw: (strip, { leaf, wave }) =>
    drawnFree(
      strip,
      growVine(freeStrip(strip), {
        halfWave: (wave / 2) * strip.width,
        swing: 0.15,
        step: Math.min(0.7 * strip.width, Math.max(0.22 * strip.width, leaf)),
        leaf: LEAF,
        lean: 0.7,
        stand: 'apart',
        least: 0.2 * strip.width,
        margin: 0.05 * strip.width,
      }),
    ),
})

/** Pointed at the vine and at the tip. */
const LEAF = [
  cubic([-0.12, 0.16], [-0.42, 0.28], [-0.4, 0.5]),
  cubic([-0.38, 0.72], [-0.1, 0.84], [0, 1]),
  cubic([0.1, 0.84], [0.38, 0.72], [0.4, 0.5]),
  cubic([0.42, 0.28], [0.12, 0.16], [0, 0]),
]
