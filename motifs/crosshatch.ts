import type { Point } from '../src/geometry/point.ts'
import { line, type Segment } from '../src/geometry/segment.ts'
import { crosshatchPath, oddNear } from '../src/motif/billiard.ts'
import { type Drawn, defineMotif, type Strip, type Touch } from '../src/motif/contract.ts'

/** Meshes across the width: odd, so that the line ends at the far end. */
const across = (width: number, spacing: number): number => oddNear((width * Math.SQRT2) / spacing)

export default defineMotif({
  title: 'Crosshatch',
  source: 'the path of a ball at 45 degrees on a table whose sides have no common divisor',
  params: {
    spacing: { kind: 'length', label: 'Spacing', default: { widths: 0.2 }, min: 4, max: 80 },
  },
  closeness: 'spacing',
  suits: { min: 50, max: 400 },
  ends: 'free',
  bend: 'corner',
  joints: 'cusped',
  repeat: (width, { spacing }) => (2 * width) / across(width, spacing),
  draw: (strip, { spacing }) => {
    const rows = across(strip.width, spacing)
    const columns = 2 * strip.repeats + (strip.from === strip.to ? 0 : 1)
    return layPath(crosshatchPath(columns, rows), { strip, columns, rows })
  },
})

/** The strip that a path of whole numbers is laid into, and how many of its meshes lie along it and across. */
interface Table {
  readonly strip: Strip
  readonly columns: number
  readonly rows: number
}

/** A path through a table's lattice as a stroke in its strip, with a touch at each side. */
function layPath(path: readonly Point[], { strip, columns, rows }: Table): Drawn {
  const { from, length, width } = strip
  const [start, rise] = from === 'inner' ? [0, width / rows] : [width, -width / rows]
  const far = from === 'inner' ? 'outer' : 'inner'
  const segments: Segment[] = []
  const touches: Touch[] = [{ edge: from, after: 0 }]
  for (let after = 1; after < path.length; after++) {
    const [u, v] = path[after]!
    segments.push(line([(length * u) / columns, start + rise * v]))
    if (v === 0) touches.push({ edge: from, after })
    else if (v === rows) touches.push({ edge: far, after })
  }
  return { stroke: { start: [0, start], segments }, touches }
}
