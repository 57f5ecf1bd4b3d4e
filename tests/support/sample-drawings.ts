import type { Drawing } from '../../src/export/drawing.ts'
import { distance, lerp, type Point } from '../../src/geometry/point.ts'
import { endOf, reverseStroke, type Stroke, StrokeBuilder, strokeThrough } from '../../src/geometry/stroke.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'
import type { LinePart } from '../../src/stitch/line.ts'
import { inches } from '../../src/units.ts'
import { even, mitredQuilt } from './sample-quilts.ts'

const frame = { units: 'in', spm: 1500, stitchLengthMm: 2.4 } as const

/**
 * One short line of a line, an arc and a cubic, with cusps, in a quilt of uneven bands, far from every symmetry: turned
 * or mirrored, it could not be taken for itself. Its first point is [61, 43], its last [243, 131].
 */
export function lopsidedDrawing(): Drawing {
  const quilt = mitredQuilt(
    [300, 120],
    [
      { name: 'sand', widths: { top: 20, right: 30, bottom: 25, left: 40 } },
      { name: 'rope', widths: { top: 35, right: 50, bottom: 60, left: 45 } },
    ],
  )
  const first = new StrokeBuilder([61, 43]).lineTo([161, 43]).arcTo([201, 43], 12).build()
  const second = new StrokeBuilder([201, 43])
    .lineTo([201, 91])
    .cubicTo([230, 91], [243, 100], [243, 131])
    .build()
  return {
    ...frame,
    title: 'Lopsided sample',
    quilt,
    areaCount: 2,
    fillers: ['bracket', 'loops'],
    lines: [
      {
        thread: '#335577',
        parts: [
          { kind: 'fill', band: 0, area: 0, stroke: first },
          { kind: 'crossing', area: 0, stroke: { start: [201, 43], segments: [] } },
          { kind: 'fill', band: 1, area: 1, stroke: second },
        ],
      },
    ],
  }
}

/** A ring of zigzags round a square quilt: `teeth` a side, with a cusp at each tip. */
export function zigzagDrawing(teeth = 12): Drawing {
  const quilt = mitredQuilt([400, 400], [{ name: 'beacon', widths: even(50) }])
  const points: Point[] = []
  for (const side of quilt.bands[0]!.sides)
    for (let i = 0; i < teeth * 2; i++)
      points.push(
        i % 2 === 0
          ? lerp(side.innerA, side.innerB, i / (teeth * 2))
          : lerp(side.outerA, side.outerB, i / (teeth * 2)),
      )
  points.push(points[0]!)
  return {
    ...frame,
    units: 'mm',
    title: 'Ring of zigzags',
    quilt,
    areaCount: 1,
    lines: [
      { thread: '#aa3322', parts: [{ kind: 'fill', band: 0, area: 0, stroke: strokeThrough(points) }] },
    ],
  }
}

/** A line of smooth random bends (a walk by a seeded generator) in a band of its own size. */
export function randomDrawing(seed: number, bends = 40): Drawing {
  const next = seeded(seed)
  const quilt = mitredQuilt([300 + 200 * next(), 300 + 300 * next()], [{ name: 'drift', widths: even(80) }])
  const place = (): Point => [20 + next() * (quilt.widthMm - 40), 20 + next() * (quilt.heightMm - 40)]
  const builder = new StrokeBuilder(place())
  for (let i = 0; i < bends; i++) {
    const pick = next()
    if (pick < 0.2) builder.lineTo(place())
    else if (pick < 0.5) builder.arcTo(place(), (next() - 0.5) * 60)
    else builder.cubicTo(place(), place(), place())
  }
  return {
    ...frame,
    units: 'cm',
    title: `Random ${seed}`,
    quilt,
    areaCount: 1,
    lines: [{ thread: '#222222', parts: [{ kind: 'fill', band: 0, area: 0, stroke: builder.build() }] }],
  }
}

/** Numbers in 0..1. @source Park and Miller 1988, minimal standard generator */
export function seeded(seed: number): () => number {
  let state = (Math.abs(Math.trunc(seed)) % 2147483646) + 1
  return () => {
    state = (state * 16807) % 2147483647
    return (state - 1) / 2147483646
  }
}

/** Sizes of the harbour sample. */
export interface HarbourSize {
  /** Side of the square centre, mm. */
  readonly centre: number
  /** Widths of the bands from the inside out, an odd number of them, mm. */
  readonly widths: readonly number[]
  readonly names: readonly string[]
  readonly fillers: readonly string[]
}

const HARBOUR: HarbourSize = {
  centre: inches(16),
  widths: [inches(1), inches(2), inches(1.5), inches(3), inches(2.5)],
  names: ['sand', 'rope', 'tide', 'lamp', 'sky'],
  fillers: ['bracket', 'loops', 'scallops', 'S-echo', 'ribbon'],
}

/**
 * A quilt for the harbour raffle, worked in eight areas (each half of a side): in one area the bands are stitched to and
 * fro from the inside out, in the next from the outside in.
 */
export function harbourDrawing(size: Partial<HarbourSize> = {}): Drawing {
  const { centre, widths, names, fillers } = { ...HARBOUR, ...size }
  const quilt = mitredQuilt(
    [centre, centre * 0.85],
    widths.map((w, i) => ({ name: names[i % names.length]!, widths: { ...even(w), left: w * 1.1 } })),
  )
  const parts: LinePart[] = []
  for (let area = 0; area < 8; area++) addArea(quilt, area, parts)
  return {
    ...frame,
    title: 'Harbour raffle quilt',
    quilt,
    areaCount: 8,
    fillers: quilt.bands.map((_, i) => fillers[i % fillers.length]!),
    lines: [{ thread: '#7a5c2e', parts }],
  }
}

function addArea(quilt: Quilt, area: number, parts: LinePart[]): void {
  const outward = area % 2 === 0
  const order = outward ? quilt.bands : [...quilt.bands].reverse()
  order.forEach((band) => {
    const run = halfSideRun(quilt, band.index, area)
    const onward = nearer(parts.at(-1), run)
    if (parts.length > 0) {
      const from = endOf(parts.at(-1)!.stroke)
      parts.push({ kind: 'crossing', area, stroke: { start: from, segments: [] } })
    }
    parts.push({ kind: 'fill', band: band.index, area, stroke: onward })
  })
}

/** The run as it is, or reversed, whichever starts where the part before ended. */
function nearer(before: LinePart | undefined, run: Stroke): Stroke {
  if (!before) return run
  const at = endOf(before.stroke)
  return distance(at, run.start) <= distance(at, endOf(run)) ? run : reverseStroke(run)
}

/**
 * Half waves from seam to seam along half a side. Areas 0, 1 are the top side's left and right half, and so on clockwise.
 * Even bands start on the inner seam at the half's beginning, odd ones on the inner seam at its end.
 */
function halfSideRun(quilt: Quilt, band: number, area: number): Stroke {
  const side = quilt.bands[band]!.sides[Math.floor(area / 2)]!
  const [t0, t1] = area % 2 === 0 ? [0, 0.5] : [0.5, 1]
  const startsInside = (band % 2 === 0) === (area % 2 === 0)
  const place = (k: number, v: number): Point => {
    const t = t0 + (t1 - t0) * k
    return lerp(lerp(side.innerA, side.innerB, t), lerp(side.outerA, side.outerB, t), v)
  }
  const width = distance(side.innerA, side.outerA) / Math.SQRT2
  const half = Math.max(1, Math.round((distance(side.innerA, side.innerB) / 2 / width) * 1.2))
  const count = half % 2 === 0 ? half + 1 : half
  const from = startsInside ? 0 : 1
  const builder = new StrokeBuilder(place(0, from))
  for (let i = 0; i < count; i++) {
    const v0 = i % 2 === 0 ? from : 1 - from
    const [b, c] = [(i + 0.5) / count, (i + 1) / count]
    builder.cubicTo(place(b, v0), place(b, 1 - v0), place(c, 1 - v0))
  }
  return builder.build()
}
