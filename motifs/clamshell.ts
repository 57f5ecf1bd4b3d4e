import type { Point } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { type Drawn, defineMotif, type Strip, type Touch } from '../src/motif/contract.ts'
import { inches } from '../src/units.ts'

/** Handle of the cubic that follows a quarter of an ellipse, as a part of the half axis: 4/3 tan(pi/8). */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8)

export default defineMotif({
  title: 'Clamshell',
  source: 'rows of half circles, each row shifted by half a shell; common practice',
  params: {
    shell: {
      kind: 'length',
      label: 'Width of a shell',
      default: { widths: 0.4 },
      min: inches(0.5),
      max: inches(4),
    },
  },
  suits: { min: inches(1.5), max: inches(8) },
  ends: 'alternate',
  bend: 'fan',
  joints: 'cusped',
  repeat: (width, { shell }) => width / (shellsAcross(width, shell) + 0.5),
  draw: (strip, { shell }) => rows(strip, shellsAcross(strip.width, shell)),
})

/** Whole shells in a row: half a shell more fills it, so that every row ends where the next one starts. */
const shellsAcross = (width: number, shell: number): number =>
  Math.min(8, Math.max(1, Math.round(width / shell - 0.5)))

/** One row per half repeat, from edge to edge: a shell is a quarter of an ellipse up and one down. */
function rows(strip: Strip, shells: number): Drawn {
  const quarters = 2 * shells + 1
  const height = strip.width / quarters
  const step = strip.length / (2 * strip.repeats)
  const line = new StrokeBuilder([0, strip.from === 'inner' ? 0 : strip.width])
  const touches: Touch[] = [{ edge: strip.from, after: 0 }]
  let edge = strip.from
  for (let row = 0; row < 2 * strip.repeats; row++) {
    const way = edge === 'inner' ? height : -height
    const start = line.at
    const at = (along: number, across: number): Point => [row * step + along * step, start[1] + across * way]
    for (let i = 0; i < quarters; i++) {
      if (i % 2 === 0) line.cubicTo(at(QUARTER, i), at(1, i + 1 - QUARTER), at(1, i + 1))
      else line.cubicTo(at(1, i + QUARTER), at(QUARTER, i + 1), at(0, i + 1))
    }
    edge = edge === 'inner' ? 'outer' : 'inner'
    touches.push({ edge, after: line.count })
  }
  return { stroke: line.build(), touches }
}
