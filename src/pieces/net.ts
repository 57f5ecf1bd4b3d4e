import { partsOutside } from '../geometry/clip-stroke.ts'
import { distance, distanceToLine, lerp, type Point } from '../geometry/point.ts'
import { pointAt, splitAt } from '../geometry/segment.ts'
import { endOf, type Stroke, strokeLength } from '../geometry/stroke.ts'
import { parameterOn } from '../quilt/avoided-region.ts'
import { footOnOuter } from '../quilt/layout.ts'
import type { Patch } from '../quilt/patch.ts'
import { PointGrid } from '../quilt/point-grid.ts'
import type { Quilt, Seam } from '../quilt/quilt.ts'
import type { Avoided } from './avoid-regions.ts'
import { dropUnreached } from './drop-unreached.ts'
import type { Piece, Pieces } from './pieces.ts'
import { RingWalk, SAME_TOUCH } from './ring-walk.ts'

/** Side of the squares in which the corners of patches are kept, mm. */
const CELL = 20

/** A stretch of the edge of an avoided region. */
interface RegionEdgeSeam {
  readonly region: number
  /** The band that it is stitched with. */
  readonly band: number
  readonly stroke: Stroke
  /** Numbers the stretches. One that is asked for is there twice: to be stitched, and to be run along before that. */
  readonly stretch: number
  readonly isAsked: boolean
}

/** A stretch of ditch between two neighbouring vertices: where the line may travel. */
export interface SeamEdge {
  readonly u: number
  readonly v: number
  /** The ring it lies on, or the band whose corner it leaves. */
  readonly ring?: number
  readonly corner?: number
  /** The band whose patch seam it is. */
  readonly patch?: number
  readonly edge?: RegionEdgeSeam
  /** The sector in which it is stitched in the ditch, if it is. */
  readonly ditch?: number
}

/** The course of a seam from its `u` to its `v`. */
export const seamCourse = ({ u, v, edge }: SeamEdge, positions: readonly Point[]): Stroke =>
  edge?.stroke ?? { start: positions[u]!, segments: [{ kind: 'line', to: positions[v]! }] }

/** The graph of the quilt: touches and seam ends as vertices, pieces and stretches of seam as edges. */
export interface Net {
  readonly positions: readonly Point[]
  /** For each piece in turn, its end vertices and its length, mm. */
  readonly fills: readonly { readonly u: number; readonly v: number; readonly length: number }[]
  readonly seams: readonly SeamEdge[]
}

/** Ties pieces and seams together at the places where they meet. */
export function tieNet(quilt: Quilt, pieces: Pieces): Net {
  const builder = new NetBuilder(quilt, pieces.avoided)
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
  const fills = ends.map((end, i) => ({ ...end, length: strokeLength(pieces.pieces[i]!.stroke) }))
  const seams = dropUnreached(builder.close(), fills)
  return { positions: builder.positions, fills, seams }
}

class NetBuilder {
  readonly positions: Point[] = []
  readonly #rings: RingWalk[]
  readonly #inside = new Map<number, { grid: PointGrid; vertices: number[] }>()
  readonly #inner: SeamEdge[] = []
  /** By band, the lines from its inner corners square to its outer seam. */
  readonly #across: readonly (readonly (readonly [Point, Point])[])[]

  readonly #avoided: Avoided | undefined

  constructor(quilt: Quilt, avoided: Avoided | undefined) {
    this.#avoided = avoided
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
    for (const ring of [band, band + 1]) if (this.#rings[ring]?.holds(at)) return this.touch(ring, at)
    return this.positions.push(at) - 1
  }

  cornerSeam(band: number, points: readonly Point[]): void {
    const [start, end] = [points[0]!, points.at(-1)!]
    if (this.#isClear(start, end)) {
      this.#inner.push({ u: this.touch(band, start), v: this.touch(band + 1, end), corner: band })
      return
    }
    for (const [from, to] of this.#openParts(start, end)) {
      const [u, v] = [this.inBand(band, from), this.inBand(band, to)]
      if (u !== v) this.#inner.push({ u, v, corner: band })
    }
  }

  /** Whether no avoided region comes near a straight seam. */
  #isClear(start: Point, end: Point): boolean {
    const outside = this.#avoided?.outside
    return !outside || outside(start) + outside(end) > distance(start, end) + 2 * SAME_TOUCH
  }

  /** The parts of a straight seam outside of the avoided regions; what runs on their edge is left to that. */
  #openParts(start: Point, end: Point): (readonly [Point, Point])[] {
    const { outside } = this.#avoided!
    const stroke: Stroke = { start, segments: [{ kind: 'line', to: end }] }
    return partsOutside(stroke, outside)
      .map(({ stroke: part }) => [part.start, endOf(part)] as const)
      .filter(([from, to]) => outside(lerp(from, to, 0.5)) > SAME_TOUCH)
  }

  patchSeam({ index, points, patches }: Seam, ditches: ReadonlyMap<number, number>): void {
    const [start, end] = points as [Point, Point]
    const ditch = patches?.map((patch) => ditches.get(patch)).find((sector) => sector !== undefined)
    const isAcross = this.#isAcross(index, points)
    for (const part of this.#isClear(start, end) ? [points] : this.#openParts(start, end)) {
      const [u, v] = part.map((p) => this.inBand(index, p)) as [number, number]
      if (u === v) continue
      this.#inner.push({
        u,
        v,
        patch: index,
        ...(isAcross && { corner: index }),
        ...(ditch !== undefined && { ditch }),
      })
    }
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
    if (this.#avoided) this.#cutRings()
    this.#rings.forEach((ring, index) => {
      const isOpen = (p: Point) => !this.#avoided || this.#avoided.outside(p) > SAME_TOUCH
      for (const { middle, ...edge } of ring.edges()) if (isOpen(middle)) edges.push({ ...edge, ring: index })
    })
    return [...edges, ...this.#inner, ...(this.#avoided ? this.#regionEdges(this.#avoided) : [])]
  }

  /** Vertices wherever a ring enters or leaves an avoided region. */
  #cutRings(): void {
    this.#rings.forEach((ring, index) => {
      for (const [start, end] of ring.sides()) {
        if (this.#isClear(start, end)) continue
        for (const part of this.#openParts(start, end)) for (const p of part) this.touch(index, p)
      }
    })
  }

  /** The edges of regions, from vertex to vertex: all that ends on them is tied to them. */
  #regionEdges({ outside, edges }: Avoided): SeamEdge[] {
    const onEdge = this.positions.flatMap((p, v) => (Math.abs(outside(p)) < SAME_TOUCH ? [v] : []))
    const vertexAt = (p: Point) => {
      const known = onEdge.find((v) => distance(this.positions[v]!, p) < SAME_TOUCH)
      if (known !== undefined) return known
      const vertex = this.positions.push(p) - 1
      onEdge.push(vertex)
      return vertex
    }
    let stretch = 0
    return edges.flatMap(({ region, band, sector, isAsked, stroke }) => {
      const segment = stroke.segments[0]!
      const [first, last] = [vertexAt(stroke.start), vertexAt(segment.to)]
      const stops = onEdge
        .filter((vertex) => vertex !== first && vertex !== last)
        .map((vertex) => ({ vertex, t: parameterOn(this.positions[vertex]!, stroke.start, segment) ?? -1 }))
        .filter(
          ({ vertex, t }) =>
            t > 0 &&
            t < 1 &&
            distance(this.positions[vertex]!, pointAt(stroke.start, segment, t)) < SAME_TOUCH,
        )
        .sort((a, b) => a.t - b.t)
      const way = [{ vertex: first, t: 0 }, ...stops, { vertex: last, t: 1 }]
      return way.slice(1).flatMap((to, i): SeamEdge[] => {
        const from = way[i]!
        if (from.vertex === to.vertex) return []
        const course = this.#course(stroke, from, to)
        const edge = { region, band, stroke: course, stretch: stretch++, isAsked }
        const along = { u: from.vertex, v: to.vertex, edge }
        return isAsked ? [{ ...along, ditch: sector }, along] : [along]
      })
    })
  }

  /** The part of a stroke of one segment between two of its vertices. */
  #course({ start, segments: [segment] }: Stroke, from: Stop, to: Stop): Stroke {
    const [head] = splitAt(start, segment!, to.t)
    const part = from.t > 0 ? splitAt(start, head, from.t / to.t)[1] : head
    return { start: from.t > 0 ? pointAt(start, segment!, from.t) : start, segments: [part] }
  }
}

/** A vertex on an edge. */
interface Stop {
  readonly vertex: number
  readonly t: number
}
