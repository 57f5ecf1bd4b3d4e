import { dot, lerp, type Point, subtract, unit } from '../../geometry/point.ts'
import { type Stroke, strokeThrough } from '../../geometry/stroke.ts'
import { inches } from '../../units.ts'
import { definePatchFiller } from './contract.ts'
import { incircle, insetPatch } from './patch-shape.ts'
import { distinctPoints } from './smooth-stroke.ts'

/** How far inside the seam the lines of either set turn, as a part of the distance between them: never on each other. */
const TURNS = [0.1, 0.22] as const

export default definePatchFiller({
  title: 'Crosshatch',
  source: 'two sets of parallel lines, each parallel to a diagonal; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Spacing',
      default: { widths: 0.2 },
      min: inches(0.1),
      max: inches(3),
    },
  },
  closeness: 'spacing',
  ditch: false,
  draw(corners, { spacing }) {
    const apart = Math.min(spacing, incircle(corners).radius)
    return TURNS.map((turn, first) =>
      sweep(first, { corners, inner: insetPatch(corners, turn * apart), spacing }),
    )
  },
})

/** Lines from seam to seam, there and back, from one corner to the furthest one. */
function sweep(
  first: number,
  { corners, inner, spacing }: { corners: readonly Point[]; inner: readonly Point[]; spacing: number },
): Stroke {
  const from = corners[first]!
  const along = unit(subtract(corners[(first + 1) % corners.length]!, corners.at(first - 1)!))
  const across = awayFrom(from, along, corners)
  const height = (p: Point) => dot(subtract(p, from), across)
  const most = Math.max(...corners.map(height))
  const count = Math.max(2, Math.round(most / spacing))
  const points = [from]
  for (let i = 1; i < count; i++) {
    const chord = chordAt(inner, (p) => height(p) - (most * i) / count)
    if (!chord) continue
    const [a, b] = dot(chord[0], along) < dot(chord[1], along) ? chord : [chord[1], chord[0]]
    points.push(...(i % 2 === 1 ? [a, b] : [b, a]))
  }
  return strokeThrough(distinctPoints([...points, nearestOf(corners, { height, most, to: points.at(-1)! })]))
}

/** The direction square to `along` in which the patch lies. */
function awayFrom(from: Point, along: Point, corners: readonly Point[]): Point {
  const across: Point = [-along[1], along[0]]
  const side = corners.reduce((sum, p) => sum + dot(subtract(p, from), across), 0)
  return side >= 0 ? across : [-across[0], -across[1]]
}

/** Where a line crosses a convex outline; `above` is negative on one side of it. */
function chordAt(outline: readonly Point[], above: (p: Point) => number): [Point, Point] | undefined {
  const found = outline.flatMap((p, i) => {
    const next = outline[(i + 1) % outline.length]!
    const [here, there] = [above(p), above(next)]
    return here < 0 === there < 0 ? [] : [lerp(p, next, here / (here - there))]
  })
  return found.length >= 2 ? [found[0]!, found[1]!] : undefined
}

/** The corner at the far end of the sweep; of two as far, the nearer to where the line is. */
function nearestOf(
  corners: readonly Point[],
  { height, most, to }: { height: (p: Point) => number; most: number; to: Point },
): Point {
  const far = corners.filter((p) => height(p) > most - 1e-6 * Math.max(1, most))
  const away = (p: Point) => Math.hypot(p[0] - to[0], p[1] - to[1])
  return far.reduce((best, p) => (away(p) < away(best) ? p : best))
}
