import { scaling } from '../src/geometry/affine.ts'
import type { Point } from '../src/geometry/point.ts'
import { arc } from '../src/geometry/segment.ts'
import { StrokeBuilder, transformStroke } from '../src/geometry/stroke.ts'
import { oddNear } from '../src/motif/billiard.ts'
import { defineMotif, type Touch } from '../src/motif/contract.ts'

/** Rows of shells, each half a shell high: odd, so that the last row is stitched towards the far end. */
const rowsFor = (width: number, size: number): number => oddNear((2 * width) / size)

/** Whole shells in a row of so many repeats; each row has a half one more. */
const shellsFor = (repeats: number): number => 2 * repeats

/** Everything is drawn with shells 2 wide and 1 high, and scaled to the strip. */
const UNIT = 2

/** A quarter of a shell: up from a cusp or down from a crown, towards 1 or -1. */
function quarter(builder: StrokeBuilder, towards: 1 | -1, rise: 1 | -1): void {
  const [u, v] = builder.at
  const centre: Point = rise === 1 ? [u + towards, v] : [u, v - 1]
  builder.push(arc([u + towards, v + rise], centre, (-towards * Math.PI) / 2))
}

/** Whole shells from cusp to cusp. */
function shellsOn(builder: StrokeBuilder, shells: number, towards: 1 | -1): void {
  for (let i = 0; i < shells; i++) {
    quarter(builder, towards, 1)
    quarter(builder, towards, -1)
  }
}

/** A row from its cusp on one end to the half shell on the other. */
function rowOut(builder: StrokeBuilder, shells: number, towards: 1 | -1): void {
  shellsOn(builder, shells, towards)
  quarter(builder, towards, 1)
}

/** A row from the crown of its half shell on one end to its cusp on the other. */
function rowBack(builder: StrokeBuilder, shells: number, towards: 1 | -1): void {
  quarter(builder, towards, -1)
  shellsOn(builder, shells, towards)
}

/** Down the far end from the outermost crown, leaning into each half shell, so that nothing is stitched twice. */
function endDown(builder: StrokeBuilder): void {
  while (builder.at[1] > 1) {
    const [u, v] = builder.at
    builder.cubicTo([u - 0.5, v - 0.4], [u, v - 1.2], [u, v - 2])
  }
  builder.arcTo([builder.at[0], 0], 0.2)
}

/** Up the far end from the innermost cusp, likewise, and through the notch between the last row and the edge. */
function endUp(builder: StrokeBuilder, rows: number): void {
  while (builder.at[1] < rows - 1) {
    const [u, v] = builder.at
    builder.cubicTo([u, v + 0.8], [u - 0.5, v + 1.6], [u, v + 2])
  }
  const [u, v] = builder.at
  builder.cubicTo([u, v + 0.4], [u - 0.18, v + 0.75], [u, v + 1])
}

/** Where the first row stands on the inner edge, given how many segments were stitched before it. */
const cuspsOf = (shells: number, before: number): Touch[] =>
  Array.from({ length: shells }, (_, i): Touch => ({ edge: 'inner', after: before + 2 * i }))

export default defineMotif({
  title: 'Clamshell',
  source: 'rows of half circles, each row half a shell up and along: every cusp stands on a crown',
  params: {
    size: { kind: 'length', label: 'Width of a shell', default: { widths: 0.4 }, min: 10, max: 150 },
  },
  closeness: 'size',
  suits: { min: 50, max: 400 },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { size }) => (2.25 * UNIT * width) / rowsFor(width, size),
  draw: (strip, { size }) => {
    const rows = rowsFor(strip.width, size)
    const shells = shellsFor(strip.repeats)
    const inward = strip.from === 'outer'
    const builder = new StrokeBuilder([0, inward ? rows : 0])
    for (let row = 0; row < rows; row++) (inward ? rowBack : rowOut)(builder, shells, row % 2 === 0 ? 1 : -1)
    const stitched = builder.count
    const arrived: Touch = { edge: inward ? 'inner' : 'outer', after: stitched }
    if (strip.to !== arrived.edge) {
      if (inward) endUp(builder, rows)
      else endDown(builder)
    }
    const cusps = inward ? cuspsOf(shells, stitched - 2 * shells) : cuspsOf(shells, 2)
    const touches: Touch[] = [{ edge: strip.from, after: 0 }, ...cusps]
    touches.push(arrived)
    if (builder.count > stitched) touches.push({ edge: strip.to, after: builder.count })
    const mesh = scaling(strip.length / (shells * UNIT + 1), strip.width / rows)
    return { stroke: transformStroke(builder.build(), mesh), touches }
  },
})
