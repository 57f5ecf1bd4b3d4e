import { scaling } from '../src/geometry/affine.ts'
import type { Point } from '../src/geometry/point.ts'
import { transformStroke } from '../src/geometry/stroke.ts'
import type { Warp } from '../src/geometry/warp.ts'
import { bend, drawLeaning } from '../src/motif/bend.ts'
import { oddNear } from '../src/motif/billiard.ts'
import { type Drawn, defineMotif, type MitreStrip, type Strip } from '../src/motif/contract.ts'
import { columnsFor, drawShells } from '../src/motif/shell-rows.ts'

/** Rows of shells, each half a shell high: odd, so that the last row is stitched towards the far end. */
const rowsFor = (width: number, size: number): number => oddNear((2 * width) / size)

/** Half shells in a repeat. */
const REPEAT = 4
/** The skew of a mitre from which on rows end on it without leaning. */
const STEPPED = 0.6
/** Over how many widths shells lean to make up for what a mitre is more or less than stepped. */
const LEANING = 2.5
/** The most that they lean, for each half shell's length over which they do. */
const MOST = 0.6

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
  repeat: (width, { size }) => (REPEAT * width) / rowsFor(width, size),
  draw: (strip, { size }) => drawStraight(strip, rowsFor(strip.width, size)),
  drawToMitre: (strip, { size }) => {
    const rows = rowsFor(strip.width, size)
    const stepped = strip.skew < STEPPED ? undefined : steppedFor(strip, rows)
    return stepped
      ? drawStepped(strip, stepped)
      : drawLeaning(strip, (straight) => drawStraight(straight, rows))
  },
})

/** As many shells as stay the roundest. */
function drawStraight({ length, width, from, to }: Strip, rows: number): Drawn {
  const end = 'square'
  const columns = columnsFor({ from, to, end }, (length * rows) / width)
  const { stroke, touches } = drawShells({ rows, columns, end, from, to })
  const mesh = scaling(length / columns, width / rows)
  return { stroke: transformStroke(stroke, mesh), touches, repeats: columns / REPEAT }
}

/** Rows that end on a mitre, which leans by half a shell for each of them. */
interface Stepped {
  readonly rows: number
  readonly columns: number
  /** How many half shells lie along the strip in its middle. */
  readonly half: number
  /** A half shell's length, mm. */
  readonly du: number
  /** By how much the mitre leans more than the rows, mm, and over how many half shells they lean to make up for it. */
  readonly rest: number
  readonly zone: number
}

/** The rows of the roundest shells that need not lean so much that they would fold; undefined if all would. */
function steppedFor({ length, width, skew, from, to }: MitreStrip, rows: number): Stepped | undefined {
  const middle = length + (skew * width) / 2
  const columns = columnsFor({ from, to, end: 'mitre' }, (middle * rows) / width - rows / 2)
  return [columns, columns + 2, columns - 2]
    .filter((count) => count > 0)
    .map((count): Stepped => {
      const half = count + rows / 2
      const du = middle / half
      const zone = Math.min(count, (LEANING * width) / du)
      return { rows, columns: count, half, du, rest: skew * width - rows * du, zone }
    })
    .find(({ rest, zone, du }) => Math.abs(rest) < MOST * zone * du)
}

/** Rows that end on the mitre as they are where it leans by half a shell for each row, and almost so where it doesn't. */
function drawStepped({ width, from, to }: MitreStrip, stepped: Stepped): Drawn {
  const { rows, columns, half } = stepped
  const drawn = drawShells({ rows, columns, end: 'mitre', from, to })
  return { ...bend(drawn, onMitre(width, stepped)), repeats: half / REPEAT }
}

/** Brings half shells onto the mitre; they lean near it as far as they must. */
function onMitre(width: number, { rows, half, du, rest, zone }: Stepped): Warp {
  const dv = width / rows
  return ([u, v]: Point) => {
    const s = Math.max(0, 1 - (half + v - rows / 2 - u) / zone)
    const across = v / rows - 0.5
    const slope = (2 * s * across * rest) / zone
    return {
      to: [u * du + s * s * across * rest, v * dv],
      du: [du + slope, 0],
      dv: [(s * s * rest) / rows - slope, dv],
    }
  }
}
