import { dot, type Point, subtract } from '../geometry/point.ts'
import { meetingPoint, offsetOutline, outlineArea, sideRay } from '../quilt/outline.ts'

/**
 * Rails parallel to the sides of a regular outline, in one line: two arms wind inward side by side from its first corner and
 * meet in the middle. Each comes round to its first side two rails further in.
 *
 * @param outline  regular, corners clockwise on the screen, mm
 * @param spacing  distance between rails, mm; made to fit the outline an even number of times
 * @returns the line's corners, from the outline's first corner and back to it
 */
export function outlineRails(outline: readonly Point[], spacing: number): Point[] {
  const inner = inradius(outline)
  const rails = 2 * Math.max(1, Math.round(inner / spacing / 2))
  const arm = (first: number) => windInward(outline, { step: inner / rails, first, turns: rails / 2 })
  return [outline[0]!, ...arm(0), ...arm(1).reverse(), outline[0]!]
}

/** @source area of a regular outline = half its perimeter times its inradius (school formula) */
function inradius(outline: readonly Point[]): number {
  const perimeter = outline.reduce((sum, p, i) => {
    const next = outline[(i + 1) % outline.length]!
    return sum + Math.hypot(next[0] - p[0], next[1] - p[1])
  }, 0)
  return (2 * Math.abs(outlineArea(outline))) / perimeter
}

interface Arm {
  readonly step: number
  /** The arm's outermost rail: 0 or 1. */
  readonly first: number
  readonly turns: number
}

/** The corners of one arm, from the first side on. Where there is no room for a side its neighbours meet instead. */
function windInward(outline: readonly Point[], { step, first, turns }: Arm): Point[] {
  const count = outline.length
  const rails = Array.from({ length: turns }, (_, turn) =>
    offsetOutline(outline, -step * (first + 0.5 + 2 * turn)),
  )
  // Before the first side the arm comes in along the last one; it ends a quarter turn early, where the other is beside it.
  const before = sideRay(offsetOutline(outline, -step * (first === 0 ? 0.75 : 0.5)), count - 1)
  const sides = rails.flatMap((rail) => rail.map((_, side) => sideRay(rail, side)))
  const runs = [before, ...sides.slice(0, -Math.floor(count / 4))]
  for (;;) {
    const corners = runs.slice(1).map((ray, i) => meetingPoint(runs[i]!, ray))
    const backward = corners.findIndex((corner, i) => {
      const next = corners[i + 1]
      return next && dot(runs[i + 1]!.along, subtract(next, corner)) < 0
    })
    if (backward < 0) return corners
    runs.splice(backward + 1, 1)
  }
}
