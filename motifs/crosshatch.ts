import type { Point } from '../src/geometry/point.ts'
import { type Stroke, StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'
import { drawnFree, type FreeStrip, freeStrip } from '../src/motif/free-end.ts'
import { inches } from '../src/units.ts'

export default defineMotif({
  title: 'Crosshatch',
  source:
    'a line that rebounds in a box of n by m squares, n and m without a common divisor, passes every diagonal once',
  params: {
    spacing: {
      kind: 'length',
      label: 'Between lines',
      default: { widths: 0.283 },
      min: inches(0.4),
      max: inches(2.5),
    },
  },
  suits: { min: inches(1.5), max: inches(8) },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { spacing }) => (2 * width) / squaresAcross(width, spacing),
  draw: (strip, { spacing }) =>
    drawnFree(strip, rebounds(freeStrip(strip), squaresAcross(strip.width, spacing))),
})

/** An odd number of squares: the line must run along the strip an odd number of times to end at its far end. */
function squaresAcross(width: number, spacing: number): number {
  const wanted = (width * Math.SQRT2) / spacing
  return Math.min(15, Math.max(3, 2 * Math.round((wanted - 1) / 2) + 1))
}

/** The line from corner to corner, a stroke from edge to edge at a time. */
function rebounds(strip: FreeStrip, across: number): Stroke {
  const { length, width, repeats } = strip
  const along = squaresAlong(strip, { across, wanted: 2 * repeats })
  const line = new StrokeBuilder([0, 0])
  const fold = (value: number, size: number) => size - Math.abs((value % (2 * size)) - size)
  const place = (step: number): Point => [
    (fold(step, along) * length) / along,
    (fold(step, across) * width) / across,
  ]
  for (let step = 1; step <= along * across; step++) {
    if (step % along === 0 || step % across === 0) line.lineTo(place(step))
  }
  return line.build()
}

/** The number nearest to `wanted` that ends on the right edge and shares no divisor with the number across. */
function squaresAlong(
  { returns }: FreeStrip,
  { across, wanted }: { across: number; wanted: number },
): number {
  for (let off = 0; ; off++) {
    for (const along of [wanted + off, wanted - off]) {
      if (along > 0 && along % 2 === (returns ? 0 : 1) && divisor(along, across) === 1) return along
    }
  }
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b))
