import { PlanError } from '../error.ts'
import { add, cross, distance, lerp, type Point, polar, scale, subtract, unit } from '../geometry/point.ts'

/** Area inside a closed outline, mm²; positive when its corners run clockwise on the screen. @source shoelace formula */
export function outlineArea(points: readonly Point[]): number {
  let twice = 0
  points.forEach((p, i) => {
    twice += cross(p, points[(i + 1) % points.length]!)
  })
  return twice / 2
}

/** Length round a closed outline, mm. */
export const outlineLength = (points: readonly Point[]): number =>
  points.reduce((sum, p, i) => sum + distance(p, points[(i + 1) % points.length]!), 0)

/**
 * A regular outline about the origin with a level side on top; corners clockwise from that side's left end.
 *
 * @param sides   3 or more
 * @param across  twice the distance from the middle to a side, mm: the size across the flats where sides are even
 * @throws PlanError `quilt/too-few-sides`
 * @source corner radius = apothem / cos(pi / sides)
 */
export function regularOutline(sides: number, across: number): Point[] {
  if (!(Number.isInteger(sides) && sides >= 3))
    throw new PlanError({
      code: 'quilt/too-few-sides',
      at: 'centre',
      message: `${sides} sides; must be a whole number, 3 or more`,
    })
  const radius = across / 2 / Math.cos(Math.PI / sides)
  const first = -Math.PI / 2 - Math.PI / sides
  return Array.from({ length: sides }, (_, i) => polar([0, 0], radius, first + (2 * Math.PI * i) / sides))
}

/** A rectangle about the origin, turned so that it stands on a corner; corners clockwise from the left one. */
export function onPointOutline(width: number, height: number): Point[] {
  const [right, down]: [Point, Point] = [
    [Math.SQRT1_2, -Math.SQRT1_2],
    [Math.SQRT1_2, Math.SQRT1_2],
  ]
  const at = (x: number, y: number): Point =>
    add(scale(right, (x * width) / 2), scale(down, (y * height) / 2))
  return [at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)]
}

/**
 * The outline whose sides lie outside those of a convex outline, parallel to them.
 *
 * @param points  corners clockwise on the screen
 * @param widths  how far out each side moves, mm; one number for all; negative moves inward
 */
export function offsetOutline(points: readonly Point[], widths: number | readonly number[]): Point[] {
  const of = (i: number) => (typeof widths === 'number' ? widths : widths[i]!)
  const lines = points.map((a, i) => {
    const along = unit(subtract(points[(i + 1) % points.length]!, a))
    return { at: add(a, scale([along[1], -along[0]], of(i))), along }
  })
  return lines.map((line, i) => meetingPoint(lines.at(i - 1)!, line))
}

/** A line through `at`. */
export interface Ray {
  readonly at: Point
  readonly along: Point
}

/** Where two lines meet. Precondition: they are not parallel. */
export function meetingPoint(a: Ray, b: Ray): Point {
  const t = cross(subtract(b.at, a.at), b.along) / cross(a.along, b.along)
  return add(a.at, scale(a.along, t))
}

/** The outline moved by a vector. */
export const shiftOutline = (points: readonly Point[], by: Point): Point[] => points.map((p) => add(p, by))

/** The outline with its corners clockwise on the screen. */
export const clockwise = (points: readonly Point[]): readonly Point[] =>
  outlineArea(points) < 0 ? [...points].reverse() : points

/** How far a point lies to the right of a line, mm: inside a side of a clockwise outline; negative outside. */
export const depthBeside = (p: Point, { at, along }: Ray): number => cross(unit(along), subtract(p, at))

/** The line along a side of an outline. */
export const sideRay = (points: readonly Point[], side: number): Ray => {
  const at = points[side]!
  return { at, along: subtract(points[(side + 1) % points.length]!, at) }
}

/** How far a point lies inside a convex outline, corners clockwise on the screen; negative outside, mm. */
export const depthIn = (p: Point, points: readonly Point[]): number =>
  Math.min(...points.map((_, side) => depthBeside(p, sideRay(points, side))))

/** Whether an outline turns the same way at every corner. */
export function isConvex(points: readonly Point[]): boolean {
  const turns = points.map((p, i) => {
    const before = points.at(i - 1)!
    return cross(subtract(p, before), subtract(points[(i + 1) % points.length]!, p))
  })
  return turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0)
}

/**
 * What a convex outline has in common with another; empty where they only touch.
 *
 * @source Sutherland and Hodgman, Communications of the ACM 17 (1974)
 */
export function clipConvex(subject: readonly Point[], by: readonly Point[]): Point[] {
  const sides = clockwise(by)
  return sides.reduce(
    (left, a, i) => clipSide(left, { at: a, along: subtract(sides[(i + 1) % sides.length]!, a) }),
    [...clockwise(subject)],
  )
}

/** The part of an outline that lies to the right of a line (inside, clockwise). */
export function clipSide(points: readonly Point[], line: Ray): Point[] {
  const depth = (p: Point) => cross(line.along, subtract(p, line.at))
  return points.flatMap((p, i) => {
    const next = points[(i + 1) % points.length]!
    const [here, there] = [depth(p), depth(next)]
    const kept = here >= 0 ? [p] : []
    if (here >= 0 === there >= 0 || here === 0 || there === 0) return kept
    return [...kept, lerp(p, next, here / (here - there))]
  })
}
