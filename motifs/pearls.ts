import type { Point } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import { type Stroke, StrokeBuilder, transformStroke } from '../src/geometry/stroke.ts'
import { defineMotif, type Strip } from '../src/motif/contract.ts'
import { inches } from '../src/units.ts'

/** Length of the lead from a seam to the first pearl, as a part of a repeat. */
const LEAD = 0.07

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
  draw: (strip) => {
    const stroke = stringOf(strip)
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

/** A lead from the seam v = 0, the pearls on their thread, and a lead to the seam that the strip ends on. */
function stringOf({ length, width, from, to, repeats }: Strip): Stroke {
  // A pearl is never wider than its strip, however long the repeat has to be.
  const radius = Math.min(width / 2, length * (1 / (2 * repeats) - LEAD / repeats ** 2))
  const lead = length / 2 - repeats * radius
  const line = new StrokeBuilder([0, 0])
  // A longer lead than a quarter circle would bulge out of the strip: the rest of it is straight.
  const bow = Math.min(lead, width / 2)
  const turn = 2 * Math.atan2(bow, width / 2)
  line.arcAlong([Math.sin(turn), Math.cos(turn)], [bow, width / 2])
  if (bow < lead) line.lineTo([lead, width / 2])
  for (let i = 0; i < repeats; i++) {
    const left: Point = [lead + 2 * radius * i, width / 2]
    addPearl(line, left, radius)
    addThread(line, left, { radius, halves: i === repeats - 1 && to === from ? 3 : 2 })
  }
  if (bow < lead) line.lineTo([length - bow, width / 2])
  const foot: Point = [length, to === from ? 0 : width]
  return line.arcAlong([0, to === from ? -1 : 1], foot).build()
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
