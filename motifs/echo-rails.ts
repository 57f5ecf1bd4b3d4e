import { arc } from '../src/geometry/segment.ts'
import { type Stroke, StrokeBuilder, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif, type Strip } from '../src/motif/contract.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Echo rails',
  source: 'lines along the seams at even distances, joined by half circles; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Between rails',
      default: inches(0.4),
      min: inches(0.2),
      max: inches(2),
    },
    repeat: {
      kind: 'length',
      label: 'Length of rails',
      default: { widths: 6 },
      min: inches(2),
      max: inches(24),
    },
  },
  suits: { min: inches(0.75), max: inches(4) },
  ends: 'free',
  elastic: true,
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, { repeat }) => Math.max(repeat, 4 * width),
  draw: (strip, { spacing }) => {
    const stroke = railsOf(strip, spacing)
    const mirror = { a: 1, b: 0, c: 0, d: -1, e: 0, f: strip.width }
    return {
      stroke: strip.from === 'inner' ? stroke : transformStroke(stroke, mirror),
      touches: [
        { edge: strip.from, after: 0 },
        { edge: strip.to, after: stroke.segments.length },
      ],
    }
  },
})

/** An odd number of rails, three or more, there and back and there, from the edge v = 0 to the edge that the strip ends on. */
function railsOf({ length, width, from, to }: Strip, spacing: number): Stroke {
  const count = 2 * Math.max(1, Math.round((width / spacing - 1) / 2)) + 1
  const gap = width / count
  const lead = Math.min(1.5 * gap, length / 3)
  const isAcross = from !== to
  const far = length - (isAcross ? gap : 2 * gap)
  const line = new StrokeBuilder([0, 0]).cubicTo([lead / 2, 0], [lead / 2, gap / 2], [lead, gap / 2])
  for (let i = 0; i < count - 1; i++) {
    const [u, v, sense] = i % 2 === 0 ? [far, (i + 0.5) * gap, 1] : [gap, (i + 0.5) * gap, -1]
    line.lineTo([u, v]).push(arc([u, v + gap], [u, v + gap / 2], sense * Math.PI))
  }
  if (isAcross) {
    line.lineTo([length - lead, width - gap / 2])
    return line
      .cubicTo([length - lead / 2, width - gap / 2], [length - lead / 2, width], [length, width])
      .build()
  }
  return addReturn(line, { length, width, gap })
}

/** From the last rail down the end of the strip and out to the seam v = 0, in two quarter turns. */
function addReturn(
  line: StrokeBuilder,
  { length, width, gap }: Record<'length' | 'width' | 'gap', number>,
): Stroke {
  const [u, v, r] = [length - gap / 2, width - gap / 2, gap / 2]
  line.lineTo([u - r, v]).push(arc([u, v - r], [u - r, v - r], -Math.PI / 2))
  line.lineTo([u, r])
  return line.push(arc([length, 0], [length, r], Math.PI / 2)).build()
}
