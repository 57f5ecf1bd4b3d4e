import type { Point } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import { type Stroke, StrokeBuilder, transformStroke } from '../src/geometry/stroke.ts'
import { type Drawn, defineMotif, type MitreStrip, type Strip } from '../src/motif/contract.ts'
import { roundedPath } from '../src/motif/rounded-path.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Echo rails',
  source: 'lines along the seams at even distances, joined by half circles; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Spacing',
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
  closeness: 'spacing',
  suits: { min: inches(0.75), max: inches(4) },
  ends: 'free',
  elastic: true,
  bend: 'corner',
  joints: 'smooth',
  repeat: (width, { repeat }) => Math.max(repeat, 4 * width),
  draw: (strip, { spacing }) => drawnFrom(strip, railsOf(strip, spacing)),
  drawToMitre: (strip, { spacing }) => drawnFrom(strip, railsToMitre(strip, spacing)),
})

/** A stroke begun on v = 0, with that edge where the strip begins. */
function drawnFrom({ from, to, width }: Strip, stroke: Stroke): Drawn {
  const mirror = { a: 1, b: 0, c: 0, d: -1, e: 0, f: width }
  return {
    stroke: from === 'inner' ? stroke : transformStroke(stroke, mirror),
    touches: [
      { edge: from, after: 0 },
      { edge: to, after: stroke.segments.length },
    ],
  }
}

/** How many rails there are: an odd number, three or more. */
const railsFor = (width: number, spacing: number): number =>
  2 * Math.max(1, Math.round((width / spacing - 1) / 2)) + 1

/** An odd number of rails, three or more, there and back and there, from the edge v = 0 to the edge that the strip ends on. */
function railsOf({ length, width, from, to }: Strip, spacing: number): Stroke {
  const count = railsFor(width, spacing)
  const gap = width / count
  const lead = Math.min(1.5 * gap, length / 3)
  const isAcross = from !== to
  const far = length - (isAcross ? gap : 2 * gap)
  const line = startRail(lead, gap)
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

const startRail = (lead: number, gap: number): StrokeBuilder =>
  new StrokeBuilder([0, 0]).cubicTo([lead / 2, 0], [lead / 2, gap / 2], [lead, gap / 2])

/** The same up to a mitre: every rail ends half a gap before it, and the line steps from rail to rail along it. */
function railsToMitre({ length, width, from, to, skew }: MitreStrip, spacing: number): Stroke {
  const count = railsFor(width, spacing)
  const gap = width / count
  const lead = Math.min(1.5 * gap, length / 3)
  const isAcross = from !== to
  const [near, far] = from === 'inner' ? [length, length + skew * width] : [length + skew * width, length]
  /** The place on rail `i` so many gaps before the mitre. */
  const beforeMitre = (i: number, gaps: number): Point => {
    const v = (i + 0.5) * gap
    return [near + ((far - near) * v) / width - gaps * gap * Math.hypot(1, skew), v]
  }
  const points: Point[] = [[lead, gap / 2]]
  for (let i = 0; i < count - 1; i++) {
    const ends = (j: number): Point =>
      i % 2 === 0 ? beforeMitre(j, isAcross ? 0.5 : 1.5) : [gap / 2, (j + 0.5) * gap]
    points.push(ends(i), ends(i + 1))
  }
  const line = startRail(lead, gap)
  if (!isAcross) {
    points.push(beforeMitre(count - 1, 0.5), beforeMitre(0, 0.5), [near, 0])
    return line.follow(roundedPath(points, gap / 2)).build()
  }
  const last: Point = [far - lead, width - gap / 2]
  line.follow(roundedPath([...points, last], gap / 2))
  return line.cubicTo([far - lead / 2, last[1]], [far - lead / 2, width], [far, width]).build()
}
