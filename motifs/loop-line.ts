import type { Point } from '../src/geometry/point.ts'
import { polar } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import type { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawHalfRepeats, drawHalvesToMitre, type HalfRepeat } from '../src/motif/half-repeats.ts'
import { followRoundLimb } from '../src/motif/round-limb.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Loop line',
  source: 'circles joined by arcs and lines that touch them; common practice',
  params: {
    repeat: { kind: 'length', label: 'Repeat', default: { widths: 2.6 }, min: inches(1), max: inches(8) },
    loop: { kind: 'ratio', label: 'Width of a loop, in widths', default: 0.56, min: 0.36, max: 0.6 },
  },
  closeness: 'repeat',
  suits: { min: inches(0.5), max: inches(2) },
  ends: 'alternate',
  bend: 'corner',
  joints: 'smooth',
  // Closer together the loops would crowd, further apart the line would run along the seam.
  repeat: (width, { repeat }) => Math.min(Math.max(repeat, 2.4 * width), 4 * width),
  draw: (strip, { loop }) => drawHalfRepeats(strip, (line, half) => followLoop(line, half, loop)),
  drawToMitre: (strip, { loop }) => drawHalvesToMitre(strip, (line, half) => followLoop(line, half, loop)),
})

/**
 * From one seam to the other: up an arc into a round loop that all but reaches the far seam, once round, out along a
 * line and over an arc that touches the far seam. Angles are headings, from along the strip towards the far edge.
 */
function followLoop(line: StrokeBuilder, half: HalfRepeat, loop: number): void {
  const { step, width, frame, at } = half
  // Where a short side squeezes the repeat, loops and arcs shrink with it.
  const size = Math.min(width, step / 1.05)
  const radius = (loop * size) / 2
  const centre: Point = [Math.max(0.28 * step, radius + 0.05 * size), width - 0.04 * size - radius]
  const approach = approachTo(centre, radius)
  const entry = polar(centre, radius, approach.heading - Math.PI / 2)
  line.push(arc(at(...entry), at(0, approach.radius), approach.heading * frame.d))
  followRoundLimb(line, half, {
    turn: { centre, radius },
    from: approach.heading,
    rounds: 1,
    crest: 0.35 * size,
  })
}

/** The arc that leaves [0, 0] along the edge and runs into the circle from inside: circles that touch internally. */
function approachTo([x, y]: Point, radius: number): { radius: number; heading: number } {
  const outer = (x * x + y * y - radius * radius) / (2 * (y - radius))
  return { radius: outer, heading: Math.atan2(x, outer - y) }
}
