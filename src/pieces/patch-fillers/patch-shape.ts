import { add, cross, distance, dot, type Point, scale, subtract, unit } from '../../geometry/point.ts'
import { clipSide } from '../../quilt/outline.ts'

/** An edge of a patch with its direction and its normal, which points inward. */
export interface PatchEdge {
  readonly from: Point
  readonly to: Point
  readonly along: Point
  readonly inward: Point
  readonly length: number
}

/** The edges of a patch whose corners run clockwise on the screen. */
export const edgesOf = (corners: readonly Point[]): PatchEdge[] =>
  corners.map((from, i) => {
    const to = corners[(i + 1) % corners.length]!
    const along = unit(subtract(to, from))
    return { from, to, along, inward: [-along[1], along[0]], length: distance(from, to) }
  })

/** The angle inside the patch at each corner, radians. */
export const cornerAngles = (corners: readonly Point[]): number[] => {
  const edges = edgesOf(corners)
  return edges.map(({ along }, i) => {
    const back = scale(edges.at(i - 1)!.along, -1)
    return Math.atan2(cross(along, back), dot(along, back))
  })
}

/** The largest circle in a patch. */
export interface Incircle {
  readonly middle: Point
  readonly radius: number
}

/**
 * The largest circle in a convex patch; where several are as large, about the middle of them.
 *
 * @source the patch moved inward until nothing is left: bisection on the distance, each step cut by half planes
 */
export function incircle(corners: readonly Point[]): Incircle {
  let [low, high] = [0, Math.max(...corners.map((p) => distance(p, corners[0]!)))]
  let left: readonly Point[] = corners
  for (let i = 0; i < 44 && high - low > 1e-9 * high; i++) {
    const radius = (low + high) / 2
    const inset = insetPatch(corners, radius)
    if (inset.length === 0) high = radius
    else {
      low = radius
      left = inset
    }
  }
  const sum = left.reduce((total: Point, p) => add(total, p), [0, 0])
  return { middle: scale(sum, 1 / left.length), radius: low }
}

/** The part of a convex patch that lies at least `by` mm from its edges; empty where there is none. */
export function insetPatch(corners: readonly Point[], by: number): readonly Point[] {
  let left = [...corners]
  for (const { from, along, inward } of edgesOf(corners)) {
    if (left.length === 0) return left
    left = clipSide(left, { at: add(from, scale(inward, by)), along })
  }
  return left
}

/** A convex patch as seen from a point inside it. */
export class PatchView {
  readonly #edges: readonly { readonly inward: Point; readonly height: number }[]

  constructor(
    readonly middle: Point,
    corners: readonly Point[],
  ) {
    this.#edges = edgesOf(corners).map(({ from, inward }) => ({
      inward,
      height: dot(subtract(middle, from), inward),
    }))
  }

  /** The point in direction `angle` that lies `depth` mm inside the nearest edge. */
  at(angle: number, depth: number): Point {
    const ray: Point = [Math.cos(angle), Math.sin(angle)]
    let radius = Number.POSITIVE_INFINITY
    for (const { inward, height } of this.#edges) {
      const towards = -dot(ray, inward)
      if (towards > 1e-9) radius = Math.min(radius, Math.max(0, height - depth) / towards)
    }
    return add(this.middle, scale(ray, radius))
  }

  /** As `at`, with the corners rounded more and more towards the middle. */
  roundedAt(angle: number, depth: number): Point {
    const ray: Point = [Math.cos(angle), Math.sin(angle)]
    const power = 3
    let sum = 0
    for (const { inward, height } of this.#edges) {
      const towards = -dot(ray, inward)
      if (towards > 1e-9) sum += (towards / Math.max(1e-9, height - depth)) ** power
    }
    return add(this.middle, scale(ray, sum ** (-1 / power)))
  }

  angleOf(p: Point): number {
    const [x, y] = subtract(p, this.middle)
    return Math.atan2(y, x)
  }
}
