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
/** Where the first plume's head begins on the side far from the edge that the line comes from, and beside that line, in heights. */
const FAN = { far: 0.03, near: 0.34 }

/** Where a plume begins and ends along the spine, and where its head does, mm from where the needle is. */
interface Plume {
  readonly foot: number
  readonly lean: number
  readonly head: number
}

/**
 * One plume on the side `side` (1 outward): out from the spine along its back, round the head, and down its front to
 * the spine, where the next one begins.
 */
function stitchPlume(
  builder: StrokeBuilder,
  height: number,
  { foot, lean, head, side }: Plume & Sided,
): void {
  const [u, v] = builder.at
  const at = (along: number, up: number): Point => [u + along, v + side * up]
  const neck = NECK * height
  const rise = (4 / 3) * (TOP - NECK) * height
  /** How much of a full plume's sideways sweep it has. */
  const sweep = lean / (LEAN * height)
  builder.cubicTo(
    at(sweep * 0.3 * height, 0.06 * height),
    at(lean - sweep * 0.06 * height, 0.4 * height),
    at(lean, neck),
  )
  builder.cubicTo(
    at(lean + 0.05 * height, neck + rise),
    at(lean + head + 0.05 * height, neck + rise),
    at(lean + head, neck),
  )
  builder.cubicTo(
    at(lean + 0.98 * head - 0.06 * height, 0.4 * height),
    at(0.8 * foot + sweep * 0.3 * height, 0.08 * height),
    at(foot, 0),
  )
}

interface Sided {
  readonly side: 1 | -1
}

/** Plumes all along one side of the spine, after some that fan out where the feather begins. */
function stitchSide(
  builder: StrokeBuilder,
  { height, pitch, plumes, base }: Feather,
  { side, from }: Sided & { from: number },
): void {
  const room = base + LEAN * height - from
  const fan = Math.max(1, Math.round(room / pitch))
  for (let i = 0; i < fan; i++)
    stitchPlume(builder, height, {
      foot: 0,
      lean: from - base + (room * i) / fan,
      head: (0.96 * room) / fan,
      side,
    })
  for (let i = 0; i < plumes; i++)
    stitchPlume(builder, height, { foot: pitch, lean: LEAN * height, head: 0.96 * pitch, side })
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
  title: 'Feather',
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
    stitchSide(builder, feather, { side: sides[0], from: FAN.far * height })
    builder.lineTo(foot)
    stitchSide(builder, feather, { side: sides[1], from: FAN.near * height })
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
