import type { Point } from '../src/geometry/point.ts'
import { StrokeBuilder } from '../src/geometry/stroke.ts'
import { defineMotif } from '../src/motif/contract.ts'

/** How a feather lies in its strip, mm: the spine from `base` to `tip`, plumes `pitch` apart and `height` high. */
interface Feather {
  readonly spine: number
  readonly height: number
  readonly base: number
  readonly pitch: number
  readonly plumes: number
}

/** Where a plume's head begins, and its top, as shares of its height; how far it leans forward. */
const NECK = 0.68
const TOP = 0.97
const LEAN = 0.5
/** The room before the first plume and after the last, in heights. */
const BEFORE = 0.34
const AFTER = LEAN + 0.2

/**
 * One plume on the side `side` (1 outward): out from the spine along its back, round the head, and down its front to
 * the spine, where the next one begins.
 */
function stitchPlume(builder: StrokeBuilder, { height, pitch }: Feather, side: 1 | -1): void {
  const [u, v] = builder.at
  const at = (along: number, up: number): Point => [u + along, v + side * up]
  const neck = NECK * height
  const lean = LEAN * height
  const head = (4 / 3) * (TOP - NECK) * height
  builder.cubicTo(at(0.3 * height, 0.06 * height), at(lean - 0.06 * height, 0.4 * height), at(lean, neck))
  builder.cubicTo(
    at(lean + 0.05 * height, neck + head),
    at(lean + 0.96 * pitch + 0.05 * height, neck + head),
    at(lean + 0.96 * pitch, neck),
  )
  builder.cubicTo(
    at(lean + 0.94 * pitch - 0.06 * height, 0.4 * height),
    at(0.8 * pitch + 0.3 * height, 0.08 * height),
    at(pitch, 0),
  )
}

/** From the spine's end in front of the last plume, and on to `end` at an edge. */
function leadOut(builder: StrokeBuilder, { height }: Feather, end: Point): void {
  const [u, v] = builder.at
  const side = end[1] > v ? 1 : -1
  const at = (along: number, up: number): Point => [u + along * height, v + side * up * height]
  builder.cubicTo(at(0.3, 0.06), at(LEAN - 0.06, 0.4), at(LEAN, NECK))
  builder.cubicTo(at(LEAN + 0.04, NECK + 0.2), at(LEAN + 0.08, 1), end)
}

export default defineMotif({
  title: 'feather',
  source: 'a spine with plumes on both sides: up one side, back along the spine, up the other',
  params: {
    plume: { kind: 'length', label: 'Width of a plume', default: { widths: 0.2 }, min: 5, max: 80 },
  },
  closeness: 'plume',
  suits: { min: 60, max: 250 },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { plume }) => Math.max(2, Math.round(width / plume)) * plume,
  draw: (strip, { plume }) => {
    const { length, width, repeats } = strip
    const height = width / 2
    const room = length - (BEFORE + AFTER) * height
    const plumes = Math.max(
      1,
      repeats * Math.max(2, Math.round(width / plume)) - Math.round(((BEFORE + AFTER) * height) / plume),
    )
    const feather: Feather = { spine: height, height, base: BEFORE * height, pitch: room / plumes, plumes }
    const start: Point = [0, strip.from === 'inner' ? 0 : width]
    const builder = new StrokeBuilder(start)
    const foot: Point = [feather.base, height]
    builder.cubicTo([0.3 * height, start[1]], [0, height], foot)
    const sides = strip.from === 'inner' ? ([1, -1] as const) : ([-1, 1] as const)
    for (let i = 0; i < plumes; i++) stitchPlume(builder, feather, sides[0])
    builder.lineTo(foot)
    for (let i = 0; i < plumes; i++) stitchPlume(builder, feather, sides[1])
    leadOut(builder, feather, [length, strip.to === 'inner' ? 0 : width])
    return {
      stroke: builder.build(),
      touches: [
        { edge: strip.from, after: 0 },
        { edge: strip.to, after: builder.count },
      ],
    }
  },
})
