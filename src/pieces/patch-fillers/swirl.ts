import { distance, lerp, type Point } from '../../geometry/point.ts'
import { inches } from '../../units.ts'
import { definePatchFiller } from './contract.ts'
import { cornersAcross, doubleSpiral, onCircle, openEnded } from './double-spiral.ts'
import { type Incircle, incircle, insetPatch } from './patch-shape.ts'
import { distinctPoints, smoothStroke } from './smooth-stroke.ts'

export default definePatchFiller({
  title: 'Swirl',
  source: 'Archimedean spirals with two arms, one after the other; common practice',
  params: {
    spacing: {
      kind: 'length',
      label: 'Spacing',
      default: { widths: 0.11 },
      min: inches(0.1),
      max: inches(2),
    },
  },
  closeness: 'spacing',
  ditch: false,
  leadsTo: cornersAcross,
  draw(corners, { spacing }) {
    const last = cornersAcross(corners)[0]!
    const [from, to] = [corners[0]!, corners[last]!]
    const circles = curlsIn(corners, last)
    const points = circles.flatMap((circle, i) =>
      curl(circle, { spacing, from: circles[i - 1]?.middle ?? from, to: circles[i + 1]?.middle ?? to }),
    )
    return [smoothStroke(distinctPoints([from, ...points, to]))]
  },
})

/** Where the curls lie: in a row along a long patch, one in a triangle, one on each side of the diagonal else. */
function curlsIn(corners: readonly Point[], last: number): Incircle[] {
  const whole = incircle(corners)
  const [a, b] = axisOf(corners, whole.radius)
  const more = Math.floor(distance(a, b) / (2 * whole.radius) + 0.2)
  if (more > 0) {
    const [near, far] = distance(a, corners[0]!) < distance(b, corners[0]!) ? [a, b] : [b, a]
    const radius = Math.min(whole.radius, distance(a, b) / (2 * more))
    return Array.from({ length: more + 1 }, (_, i) => ({ middle: lerp(near, far, i / more), radius }))
  }
  if (corners.length === 3) return [whole]
  return halves(corners, last).map(incircle)
}

/** The two middles furthest apart that the largest circle, made a little smaller, can have. */
function axisOf(corners: readonly Point[], radius: number): [Point, Point] {
  const places = insetPatch(corners, radius * 0.999)
  let best: [Point, Point] = [places[0]!, places[0]!]
  for (const a of places) for (const b of places) if (distance(a, b) > distance(...best)) best = [a, b]
  return best
}

/** The two parts of a patch on both sides of the line between its first corner and one that is no neighbour. */
function halves(corners: readonly Point[], last: number): [Point[], Point[]] {
  const [from, to] = [corners[0]!, corners[last]!]
  const before = corners.slice(1, last)
  const after = corners.slice(last + 1)
  return [
    [from, ...before, to],
    [from, to, ...after],
  ]
}

function curl(
  { middle, radius }: Incircle,
  { spacing, from, to }: { spacing: number; from: Point; to: Point },
): Point[] {
  const angle = (p: Point) => Math.atan2(p[1] - middle[1], p[0] - middle[0])
  const spiral = doubleSpiral({ radius, spacing }, { enter: angle(from), leave: angle(to) })
  return openEnded(spiral).map(onCircle(middle, radius))
}
