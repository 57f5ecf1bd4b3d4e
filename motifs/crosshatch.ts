import { compose, scaling } from '../src/geometry/affine.ts'
import { strokeThrough, transformStroke } from '../src/geometry/stroke.ts'
import { crosshatchPath, oddNear } from '../src/motif/billiard.ts'
import { defineMotif, type Touch } from '../src/motif/contract.ts'

/** Meshes across the width: odd, so that the line ends at the far end. */
const across = (width: number, spacing: number): number => oddNear((width * Math.SQRT2) / spacing)

export default defineMotif({
  title: 'crosshatch',
  source: 'the path of a ball at 45 degrees on a table whose sides have no common divisor',
  params: {
    spacing: { kind: 'length', label: 'Distance between lines', default: { widths: 0.2 }, min: 4, max: 80 },
  },
  closeness: 'spacing',
  suits: { min: 50, max: 400 },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { spacing }) => (2 * width) / across(width, spacing),
  draw: (strip, { spacing }) => {
    const rows = across(strip.width, spacing)
    const columns = 2 * strip.repeats + (strip.from === strip.to ? 0 : 1)
    const bounces = crosshatchPath(columns, rows)
    const mesh = scaling(strip.length / columns, strip.width / rows)
    const flip = strip.from === 'inner' ? mesh : compose(mesh, { ...scaling(1, -1), f: strip.width })
    const stroke = transformStroke(strokeThrough(bounces), flip)
    const touches = bounces.flatMap(([, v], after): Touch[] => {
      if (v !== 0 && v !== rows) return []
      return [{ edge: (v === 0) === (strip.from === 'inner') ? 'inner' : 'outer', after }]
    })
    return { stroke, touches }
  },
})
