import { add, distance, dot, type Point, scale, subtract, unit } from '../geometry/point.ts'

/** Touches closer together than this are one crossing, mm. */
export const SAME_TOUCH = 0.01

/** The vertices on one ring, by their distance along it. */
export class RingWalk {
  readonly #sides: {
    readonly from: Point
    readonly along: Point
    readonly length: number
    readonly before: number
  }[]
  readonly #vertices = new Map<number, { readonly at: number; readonly vertex: number }[]>()
  readonly #ditches: { readonly from: number; readonly to: number; readonly sector: number }[] = []
  readonly #perimeter: number

  constructor(ring: readonly Point[]) {
    let before = 0
    this.#sides = ring.map((from, i) => {
      const to = ring[(i + 1) % ring.length]!
      const side = { from, along: unit(subtract(to, from)), length: distance(from, to), before }
      before += side.length
      return side
    })
    this.#perimeter = before
  }

  vertexAt(point: Point, create: () => number): number {
    const at = this.#distanceAlong(point)
    const cell = Math.round(at)
    for (const near of [cell - 1, cell, cell + 1]) {
      const found = this.#vertices.get(near)?.find((known) => Math.abs(known.at - at) < SAME_TOUCH)
      if (found) return found.vertex
    }
    const vertex = create()
    this.#vertices.set(cell, [...(this.#vertices.get(cell) ?? []), { at, vertex }])
    return vertex
  }

  /** Whether a place lies on the ring. */
  holds(point: Point): boolean {
    return this.#foot(point).away < SAME_TOUCH
  }

  /** Says that a stretch of one side is stitched in the ditch. */
  ditch(a: Point, b: Point, sector: number): void {
    const [from, to] = [this.#foot(a).at, this.#foot(b).at].sort((x, y) => x - y) as [number, number]
    // The ring's end is its start: a stretch that ends there runs from its other end to the full length.
    const isLast = to - from > distance(a, b) + SAME_TOUCH
    this.#ditches.push(isLast ? { from: to, to: this.#perimeter, sector } : { from, to, sector })
  }

  /** The stretches between neighbouring vertices, once round. */
  edges(): { u: number; v: number; middle: Point; ditch?: number }[] {
    const order = [...this.#vertices.values()].flat().sort((a, b) => a.at - b.at)
    const ditches = [...this.#ditches].sort((a, b) => a.from - b.from)
    return order.flatMap(({ at, vertex: u }, i) => {
      const next = order[i + 1] ?? { at: this.#perimeter, vertex: order[0]!.vertex }
      if (u === next.vertex) return []
      const middle = (at + next.at) / 2
      const ditch = ditches.find(({ from, to }) => from < middle && middle < to)
      return [{ u, v: next.vertex, middle: this.#placeAt(middle), ...(ditch && { ditch: ditch.sector }) }]
    })
  }

  /** The sides, from corner to corner. */
  sides(): (readonly [Point, Point])[] {
    return this.#sides.map(({ from }, i) => [from, this.#sides[(i + 1) % this.#sides.length]!.from])
  }

  #placeAt(at: number): Point {
    const side = this.#sides.filter(({ before }) => before <= at).at(-1) ?? this.#sides[0]!
    return add(side.from, scale(side.along, at - side.before))
  }

  #distanceAlong(point: Point): number {
    const { at } = this.#foot(point)
    // The ring's end is its start.
    return at > this.#perimeter - SAME_TOUCH ? 0 : at
  }

  /** The nearest place on the ring, and how far off it the point lies. */
  #foot(point: Point): { at: number; away: number } {
    let [at, away] = [0, Number.POSITIVE_INFINITY]
    for (const side of this.#sides) {
      const along = Math.min(side.length, Math.max(0, dot(subtract(point, side.from), side.along)))
      const foot: Point = [side.from[0] + side.along[0] * along, side.from[1] + side.along[1] * along]
      const off = distance(foot, point)
      if (off < away) [at, away] = [side.before + along, off]
    }
    return { at, away }
  }
}
