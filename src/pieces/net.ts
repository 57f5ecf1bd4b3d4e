import { distance, dot, type Point, subtract, unit } from '../geometry/point.ts'
import { endOf, strokeLength } from '../geometry/stroke.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Pieces } from './pieces.ts'

/** Touches closer together than this are one crossing, mm. */
const SAME_TOUCH = 0.01

/** A stretch of ditch between two neighbouring vertices: where the line may travel. */
export interface SeamEdge {
  readonly u: number
  readonly v: number
  /** The ring it lies on, or the band whose corner seam it is. */
  readonly ring?: number
  readonly corner?: number
}

/** The graph of the quilt: touches and seam ends as vertices, pieces and stretches of seam as edges. */
export interface Net {
  readonly positions: readonly Point[]
  /** For each piece in turn, its end vertices and its length, mm. */
  readonly fills: readonly { readonly u: number; readonly v: number; readonly length: number }[]
  readonly seams: readonly SeamEdge[]
}

/** Ties pieces and seams together at the places where they meet. */
export function tieNet(quilt: Quilt, pieces: Pieces): Net {
  const builder = new NetBuilder(quilt)
  const ends = pieces.pieces.map((piece) => ({
    u: builder.touch(piece.startRing, piece.stroke.start),
    v: builder.touch(piece.endRing, endOf(piece.stroke)),
  }))
  for (const seam of quilt.seams) if (seam.kind === 'corner') builder.cornerSeam(seam.index, seam.points)
  const seams = builder.close()
  const fills = ends.map((end, i) => ({ ...end, length: strokeLength(pieces.pieces[i]!.stroke) }))
  return { positions: builder.positions, fills, seams }
}

class NetBuilder {
  readonly positions: Point[] = []
  readonly #rings: RingWalk[]
  readonly #corners: SeamEdge[] = []

  constructor(quilt: Quilt) {
    this.#rings = quilt.rings.map((ring) => new RingWalk(ring))
    // Corners are vertices even where nothing touches: seams meet there.
    quilt.rings.forEach((ring, index) => {
      for (const corner of ring) this.touch(index, corner)
    })
  }

  /** The vertex at a place on a ring. */
  touch(ring: number, at: Point): number {
    return this.#rings[ring]!.vertexAt(at, () => this.positions.push(at) - 1)
  }

  cornerSeam(band: number, points: readonly Point[]): void {
    const u = this.touch(band, points[0]!)
    const v = this.touch(band + 1, points.at(-1)!)
    this.#corners.push({ u, v, corner: band })
  }

  /** The stretches of seam between neighbours, round each ring, and the corner seams. */
  close(): SeamEdge[] {
    const edges: SeamEdge[] = []
    this.#rings.forEach((ring, index) => {
      const order = ring.inOrder()
      order.forEach((u, i) => {
        const v = order[(i + 1) % order.length]!
        if (u !== v) edges.push({ u, v, ring: index })
      })
    })
    return [...edges, ...this.#corners]
  }
}

/** The vertices on one ring, by their distance along it. */
class RingWalk {
  readonly #sides: {
    readonly from: Point
    readonly along: Point
    readonly length: number
    readonly before: number
  }[]
  readonly #vertices = new Map<number, { readonly at: number; readonly vertex: number }[]>()
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

  inOrder(): number[] {
    return [...this.#vertices.values()]
      .flat()
      .sort((a, b) => a.at - b.at)
      .map((known) => known.vertex)
  }

  #distanceAlong(point: Point): number {
    let [best, least] = [0, Number.POSITIVE_INFINITY]
    for (const side of this.#sides) {
      const along = Math.min(side.length, Math.max(0, dot(subtract(point, side.from), side.along)))
      const foot: Point = [side.from[0] + side.along[0] * along, side.from[1] + side.along[1] * along]
      const away = distance(foot, point)
      if (away < least) [best, least] = [side.before + along, away]
    }
    // The ring's end is its start.
    return best > this.#perimeter - SAME_TOUCH ? 0 : best
  }
}
