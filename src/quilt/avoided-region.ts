import { crossings, type Outside, splitSegment } from '../geometry/clip-stroke.ts'
import {
  add,
  cross,
  distance,
  distanceToLine,
  dot,
  norm,
  type Point,
  scale,
  subtract,
} from '../geometry/point.ts'
import { arc, directionAt, line, pointAt, type Segment } from '../geometry/segment.ts'
import { eachSegment, type Stroke } from '../geometry/stroke.ts'

/** The shape of a region: mm from the quilt's top left finished corner. A polygon does not cross itself. */
export type RegionShape =
  | { readonly kind: 'circle'; readonly centre: Point; readonly radius: number }
  | { readonly kind: 'polygon'; readonly points: readonly Point[] }

/** A region that no stitching may enter, such as an appliqué. */
export type AvoidedRegion = RegionShape & {
  readonly name: string
  /** `whole`: its edge is stitched all round; `as-needed`: only where the line has to get round it. */
  readonly outline: 'whole' | 'as-needed'
}

/** A stretch of a region's edge that bounds stitching. */
export interface EdgeRun {
  /** Index of the region. */
  readonly region: number
  readonly from: Point
  readonly segment: Segment
}

/** How far a point lies outside of one shape. */
export const outsideOf = (shape: RegionShape): Outside =>
  shape.kind === 'circle'
    ? (p) => distance(p, shape.centre) - shape.radius
    : (p) => distanceOutsidePolygon(p, shape.points)

/** How far a point lies outside of all regions: from the nearest. */
export function outsideAll(regions: readonly RegionShape[]): Outside {
  const each = regions.map(outsideOf)
  return (p) => each.reduce((least, outside) => Math.min(least, outside(p)), Number.POSITIVE_INFINITY)
}

function distanceOutsidePolygon(p: Point, points: readonly Point[]): number {
  let [nearest, isInside] = [Number.POSITIVE_INFINITY, false]
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!
    nearest = Math.min(nearest, distanceToLine(p, a, b))
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < a[0] + ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]))
      isInside = !isInside
  })
  return isInside ? -nearest : nearest
}

/** The closed edge of a shape; a circle begins on its left. */
export function outlineOf(shape: RegionShape): Stroke {
  if (shape.kind === 'polygon') {
    const [start, ...rest] = shape.points
    return { start: start!, segments: [...rest, start!].map(line) }
  }
  const { centre, radius } = shape
  const [left, right]: [Point, Point] = [add(centre, [-radius, 0]), add(centre, [radius, 0])]
  return { start: left, segments: [arc(right, centre, Math.PI), arc(left, centre, Math.PI)] }
}

/** How far off an edge its two sides are probed, mm. */
const PROBE = 1e-4
/** Edges closer together than this run on each other, mm. */
const SAME = 1e-3

/**
 * The edge of all regions together, within a field: what lies inside another region is left out, and of edges that run on
 * each other one is kept. Seen along a run, the region lies on one side and open field on the other.
 *
 * @param field  the outline within which there is stitching, closed
 */
export function edgeRuns(regions: readonly RegionShape[], field: readonly Point[]): EdgeRun[] {
  const each = regions.map(outsideOf)
  const inField = outsideOf({ kind: 'polygon', points: field })
  const corners = [...regions.flatMap((r) => (r.kind === 'polygon' ? r.points : [])), ...field]
  return regions.flatMap((region, index) => {
    const others = each.map((outside, i) => ({ outside, i })).filter(({ i }) => i !== index)
    const runs: EdgeRun[] = []
    eachSegment(outlineOf(region), (from, segment) => {
      const cuts = [...others.map(({ outside }) => outside), inField].flatMap((outside) =>
        crossings(from, segment, outside),
      )
      const all = [...cuts, ...parametersOf(corners, from, segment)].sort((a, b) => a - b)
      for (const part of splitSegment(from, segment, all)) {
        const middle = pointAt(part.from, part.segment, 0.5)
        const open = openSide(part, each[index]!)
        const isFree = others.every(
          ({ outside, i }) => outside(open) > 0 && !(i < index && Math.abs(outside(middle)) < SAME),
        )
        if (isFree && inField(open) < 0) runs.push({ region: index, ...part })
      }
    })
    return runs
  })
}

/** A point just off the middle of an edge, on the side where its own region is not. */
function openSide({ from, segment }: { from: Point; segment: Segment }, outside: Outside): Point {
  const [dx, dy] = directionAt(from, segment, 0.5)
  const middle = pointAt(from, segment, 0.5)
  const left = add(middle, scale([-dy, dx], PROBE))
  return outside(left) > 0 ? left : add(middle, scale([dy, -dx], PROBE))
}

/** Where points lie on a segment (a line, or an arc of at most half a turn): parameters in 0..1. */
function parametersOf(points: readonly Point[], from: Point, segment: Segment): number[] {
  return points.flatMap((p) => {
    const t = parameterOn(p, from, segment)
    return t !== undefined && t > 0 && t < 1 && distance(pointAt(from, segment, t), p) < SAME ? [t] : []
  })
}

/** The parameter of the place of a line or an arc that lies nearest to a point. */
export function parameterOn(p: Point, from: Point, segment: Segment): number | undefined {
  if (segment.kind === 'line') {
    const along = subtract(segment.to, from)
    const squared = dot(along, along)
    return squared > 0 ? dot(subtract(p, from), along) / squared : undefined
  }
  if (segment.kind !== 'arc') return undefined
  const [a, b] = [subtract(from, segment.centre), subtract(p, segment.centre)]
  const angle = Math.atan2(cross(a, b), dot(a, b))
  return angle / segment.sweep
}

/** Whether a polygon's edges cross or touch each other elsewhere than at its corners. */
export function crossesItself(points: readonly Point[]): boolean {
  const edges = points.map((a, i) => [a, points[(i + 1) % points.length]!] as const)
  return edges.some(([a, b], i) =>
    edges.some(([c, d], j) => {
      if (j <= i) return false
      const isNext = j === i + 1 || (i === 0 && j === edges.length - 1)
      return isNext ? foldsBack([a, b], [c, d]) : segmentsMeet([a, b], [c, d])
    }),
  )
}

type Edge = readonly [Point, Point]

/** Whether the second of two neighbouring edges lies back along the first. */
function foldsBack(first: Edge, second: Edge): boolean {
  const [along, on] = [subtract(first[1], first[0]), subtract(second[1], second[0])]
  const isStraight = Math.abs(cross(along, on)) <= 1e-9 * norm(along) * norm(on)
  return isStraight && dot(along, on) < 0
}

function segmentsMeet([a, b]: Edge, [c, d]: Edge): boolean {
  const side = (p: Point, q: Point, r: Point) => Math.sign(cross(subtract(q, p), subtract(r, p)))
  const [s1, s2, s3, s4] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)]
  if (s1 !== s2 && s3 !== s4) return true
  return [
    [c, a, b],
    [d, a, b],
    [a, c, d],
    [b, c, d],
  ].some(([p, q, r]) => distanceToLine(p!, q!, r!) < 1e-9)
}
