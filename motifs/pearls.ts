import type { Point } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import { type Stroke, StrokeBuilder, transformStroke } from '../src/geometry/stroke.ts'
import { type Drawn, defineMotif, type MitreStrip, type Strip } from '../src/motif/contract.ts'
import { inches } from '../src/units.ts'

/** Length of the lead from a seam to the first pearl, as a part of a repeat. */
const LEAD = 0.13

export default defineMotif({
  title: 'Pearls',
  source: 'circles that touch, on a thread of half circles of half the size (the yin-yang figure)',
  params: {
    size: { kind: 'ratio', label: 'Width of a pearl, in widths', default: 0.8, min: 0.5, max: 0.84 },
  },
  suits: { min: inches(0.5), max: inches(2) },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { size }) => size * width,
  draw: (strip) => drawnFrom(strip, stringOf(strip)),
  drawToMitre: (strip) => drawnFrom(strip, stringToMitre(strip)),
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

/** A lead from the seam v = 0, the pearls on their thread, and a lead to the seam that the strip ends on. */
function stringOf({ length, width, from, to, repeats }: Strip): Stroke {
  // A pearl is never wider than its strip, however long the repeat has to be.
  const radius = Math.min(width / 2, length * (1 / (2 * repeats) - LEAD / repeats ** 2))
  const lead = length / 2 - repeats * radius
  const line = startString(lead, width)
  addPearls(line, { radius, repeats, last: to === from ? 3 : 2 })
  const bow = Math.min(lead, width / 2)
  if (bow < lead) line.lineTo([length - bow, width / 2])
  const foot: Point = [length, to === from ? 0 : width]
  return line.arcAlong([0, to === from ? -1 : 1], foot).build()
}

/** How far the last pearl keeps from the mitre, in radii from its middle: room for the line if it has to pass it. */
const CLEAR = { outer: 1.06, inner: 1.3 }

/** The same up to a mitre: round pearls as far as they go, and from the last of them a curve into the corner. */
function stringToMitre({ length, width, from, to, repeats, skew }: MitreStrip): Stroke {
  const middle = length + (skew * width) / 2
  const beyond = CLEAR[to] * Math.hypot(1, skew) - 1
  const radius = Math.min(width / 2, middle / (2 * repeats + beyond + 2 * LEAD))
  const line = startString(middle - radius * (beyond + 2 * repeats), width)
  const side = to === from ? -1 : 1
  addPearls(line, { radius, repeats, last: side === 1 ? 2 : 3 })
  const corner: Point = [to === 'outer' ? length + skew * width : length, side === 1 ? width : 0]
  const [u, v] = line.at
  const [du, dv] = [corner[0] - u, corner[1] - v]
  if (to === 'outer') line.cubicTo([u, v + 0.55 * dv], [corner[0] - 0.55 * du, corner[1] - 0.06 * dv], corner)
  // Bent away from the pearl, so that it does not run along it.
  else
    line.cubicTo([u + 0.07 * width, v + 0.35 * dv], [corner[0] + 0.04 * width, corner[1] - 0.26 * dv], corner)
  return line.build()
}

/** From the seam v = 0 to the middle of the strip, where the first pearl begins. */
function startString(lead: number, width: number): StrokeBuilder {
  const line = new StrokeBuilder([0, 0])
  // A longer lead than a quarter circle would bulge out of the strip: the rest of it is straight.
  const bow = Math.min(lead, width / 2)
  const turn = 2 * Math.atan2(bow, width / 2)
  line.arcAlong([Math.sin(turn), Math.cos(turn)], [bow, width / 2])
  return bow < lead ? line.lineTo([lead, width / 2]) : line
}

/** @param last  half circles of the thread through the last pearl */
function addPearls(
  line: StrokeBuilder,
  { radius, repeats, last }: { radius: number; repeats: number; last: 2 | 3 },
): void {
  for (let i = 0; i < repeats; i++) {
    const left = line.at
    addPearl(line, left, radius)
    addThread(line, left, { radius, halves: i === repeats - 1 ? last : 2 })
  }
}

/** Once round, from the pearl's left, upwards, and back to it. */
function addPearl(line: StrokeBuilder, [u, v]: Point, radius: number): void {
  const centre: Point = [u + radius, v]
  line.push(arc([u + 2 * radius, v], centre, -Math.PI)).push(arc([u, v], centre, -Math.PI))
}

/** Through the pearl from its left, upwards, to its right: upwards after two half circles, downwards after three. */
function addThread(
  line: StrokeBuilder,
  [u, v]: Point,
  { radius, halves }: { radius: number; halves: 2 | 3 },
): void {
  const r = radius / halves
  for (let i = 0; i < halves; i++) {
    const sweep = i % 2 === 0 ? -Math.PI : Math.PI
    line.push(arc([u + 2 * r * (i + 1), v], [u + r * (2 * i + 1), v], sweep))
  }
}
