import { distance, distanceToLine, dot, lerp, type Point, subtract, unit } from '../geometry/point.ts'
import { endOf, strokeLength } from '../geometry/stroke.ts'
import { footOnOuter } from '../quilt/layout.ts'
import type { Patch } from '../quilt/patch.ts'
import { PointGrid } from '../quilt/point-grid.ts'
import type { Quilt, Seam } from '../quilt/quilt.ts'
import type { Piece, Pieces } from './pieces.ts'

/** Touches closer together than this are one crossing, mm. */
const SAME_TOUCH = 0.01
/** Side of the squares in which the corners of patches are kept, mm. */
const CELL = 20

/** A stretch of ditch between two neighbouring vertices: where the line may travel. */
export interface SeamEdge {
  readonly u: number
  readonly v: number
  /** The ring it lies on, or the band whose corner it leaves. */
  readonly ring?: number
  readonly corner?: number
  /** The band whose patch seam it is. */
  readonly patch?: number
  /** The sector in which it is stitched in the ditch, if it is. */
  readonly ditch?: number
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
  const vertexOf = (piece: Piece, ring: number | undefined, at: Point) =>
    ring === undefined ? builder.inBand(piece.band, at) : builder.touch(ring, at)
  const ends = pieces.pieces.map((piece) => ({
    u: vertexOf(piece, piece.startRing, piece.stroke.start),
    v: vertexOf(piece, piece.endRing, endOf(piece.stroke)),
  }))
  const ditches = new Map(pieces.ditched.map(({ patch, sector }) => [patch, sector]))
  for (const seam of quilt.seams) {
    if (seam.kind === 'corner') builder.cornerSeam(seam.index, seam.points)
    if (seam.kind === 'patch') builder.patchSeam(seam, ditches)
  }
  for (const [patch, sector] of ditches) builder.ringDitch(quilt.patches![patch]!, sector)
  const seams = builder.close()
  const fills = ends.map((end, i) => ({ ...end, length: strokeLength(pieces.pieces[i]!.stroke) }))
  return { positions: builder.positions, fills, seams }
}

class NetBuilder {
  readonly positions: Point[] = []
  readonly #rings: RingWalk[]
  readonly #inside = new Map<number, { grid: PointGrid; vertices: number[] }>()
  readonly #inner: SeamEdge[] = []
  /** By band, the lines from its inner corners square to its outer seam. */
  readonly #across: readonly (readonly (readonly [Point, Point])[])[]

  constructor(quilt: Quilt) {
    this.#across = quilt.bands.map(({ sides }) =>
      sides.map((side) => [side.innerA, footOnOuter(side.innerA, side)]),
    )
    this.#rings = quilt.rings.map((ring) => new RingWalk(ring))
    // Corners are vertices even where nothing touches: seams meet there, and so may the next ring.
    quilt.rings.forEach((ring, index) => {
      const next = this.#rings[index + 1]
      for (const corner of ring) {
        const vertex = this.touch(index, corner)
        if (next?.holds(corner)) next.vertexAt(corner, () => vertex)
      }
    })
  }

  /** The vertex at a place on a ring. */
  touch(ring: number, at: Point): number {
    return this.#rings[ring]!.vertexAt(at, () => this.positions.push(at) - 1)
  }

  /** The vertex at a place in a band: on one of its two rings if it lies there. */
  inBand(band: number, at: Point): number {
    let places = this.#inside.get(band)
    if (!places) {
      places = { grid: new PointGrid(SAME_TOUCH, CELL), vertices: [] }
      this.#inside.set(band, places)
    }
    const number = places.grid.numberAt(at)
    places.vertices[number] ??= this.#vertexInBand(band, at)
    return places.vertices[number]!
  }

  #vertexInBand(band: number, at: Point): number {
    for (const ring of [band, band + 1]) if (this.#rings[ring]!.holds(at)) return this.touch(ring, at)
    return this.positions.push(at) - 1
  }

  cornerSeam(band: number, points: readonly Point[]): void {
    const u = this.touch(band, points[0]!)
    const v = this.touch(band + 1, points.at(-1)!)
    this.#inner.push({ u, v, corner: band })
  }

  patchSeam({ index, points, patches }: Seam, ditches: ReadonlyMap<number, number>): void {
    const [u, v] = points.map((p) => this.inBand(index, p)) as [number, number]
    const ditch = patches?.map((patch) => ditches.get(patch)).find((sector) => sector !== undefined)
    if (u === v) return
    this.#inner.push({
      u,
      v,
      patch: index,
      ...(this.#isAcross(index, points) && { corner: index }),
      ...(ditch !== undefined && { ditch }),
    })
  }

  /** Whether a patch seam lies on the line that leaves a corner square across the band. */
  #isAcross(band: number, points: readonly Point[]): boolean {
    return this.#across[band]!.some(([from, to]) =>
      points.every((p) => distanceToLine(p, from, to) < SAME_TOUCH),
    )
  }

  /** Marks where a patch lies along its band's seams: there the ditch is stitched. */
  ringDitch({ band, outline }: Patch, sector: number): void {
    outline.forEach((from, i) => {
      const to = outline[(i + 1) % outline.length]!
      for (const ring of [this.#rings[band]!, this.#rings[band + 1]!]) {
        if (!(ring.holds(from) && ring.holds(to) && ring.holds(lerp(from, to, 0.5)))) continue
        this.inBand(band, from)
        this.inBand(band, to)
        ring.ditch(from, to, sector)
      }
    })
  }

  /** The stretches of seam between neighbours, round each ring, and the seams inside the bands. */
  close(): SeamEdge[] {
    const edges: SeamEdge[] = []
    this.#rings.forEach((ring, index) => {
      for (const edge of ring.edges()) edges.push({ ...edge, ring: index })
    })
    return [...edges, ...this.#inner]
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
  edges(): { u: number; v: number; ditch?: number }[] {
    const order = [...this.#vertices.values()].flat().sort((a, b) => a.at - b.at)
    const ditches = [...this.#ditches].sort((a, b) => a.from - b.from)
    return order.flatMap(({ at, vertex: u }, i) => {
      const next = order[i + 1] ?? { at: this.#perimeter, vertex: order[0]!.vertex }
      if (u === next.vertex) return []
      const middle = (at + next.at) / 2
      const ditch = ditches.find(({ from, to }) => from < middle && middle < to)
      return [{ u, v: next.vertex, ...(ditch && { ditch: ditch.sector }) }]
    })
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
