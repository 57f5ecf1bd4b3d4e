import type { Point } from '../../src/geometry/point.ts'
import type { RouteEdge, RouteGraph } from '../../src/route/index.ts'

/** A quilt of rings as the planner sees it. */
export interface Weave {
  readonly graph: RouteGraph
  readonly bands: number
  readonly stations: number
  /** The required edges of band k in the stretch from station j to j + 1. */
  readonly stretch: (band: number, station: number) => readonly number[]
  /** The vertex where band k touches at station j. */
  readonly touch: (band: number, station: number) => number
  /** The vertex on seam s at station j. */
  readonly corner: (seam: number, station: number) => number
}

/** `pieces` per stretch is odd, so that a run goes from seam to seam, or 1. */
export interface WeaveShape {
  readonly bands: number
  /** An even number, so that the touches of a ring close. */
  readonly stations: number
  readonly pieces: number
  /** Every band starts on its inner seam: no weave, many odd vertices. */
  readonly inStep?: boolean
}

const RING_GAP = 100

/**
 * K rings of S stations. Band k at station j touches its inner seam (k) if j + k is even, else its outer one (k + 1);
 * its run zigzags between the seams, so the ends of runs meet pairwise. Seams are optional edges between neighbours.
 */
export function ringWeave({ bands, stations, pieces, inStep = false }: WeaveShape): Weave {
  const perRing = stations * pieces
  const seams = bands + 1
  const positions: Point[] = []
  for (let s = 0; s < seams; s++)
    for (let i = 0; i < perRing; i++) {
      const angle = (2 * Math.PI * i) / perRing
      const radius = (s + 3) * RING_GAP
      positions.push([radius * Math.cos(angle), radius * Math.sin(angle)])
    }
  const vertex = (seam: number, i: number) => seam * perRing + (((i % perRing) + perRing) % perRing)
  const side = (band: number, j: number) => (inStep ? band : (j + band) % 2 === 0 ? band : band + 1)
  const edges: RouteEdge[] = []
  const runs = new Map<string, number[]>()
  const gap = (u: number, v: number) =>
    Math.hypot(positions[u]![0] - positions[v]![0], positions[u]![1] - positions[v]![1])
  for (let band = 0; band < bands; band++)
    for (let j = 0; j < stations; j++) {
      const run: number[] = []
      let seam = side(band, j)
      for (let i = 0; i < pieces; i++) {
        const other = i === pieces - 1 ? side(band, (j + 1) % stations) : 2 * band + 1 - seam
        const u = vertex(seam, j * pieces + i)
        const v = vertex(other, j * pieces + i + 1)
        run.push(edges.length)
        edges.push({ u, v, length: 1.2 * gap(u, v), required: true, strand: band })
        seam = other
      }
      runs.set(`${band} ${j}`, run)
    }
  const used = new Set(edges.flatMap((e) => [e.u, e.v]))
  for (let s = 0; s < seams; s++) {
    const ring = Array.from({ length: perRing }, (_, i) => vertex(s, i)).filter(
      (x, i) => used.has(x) || i % pieces === 0,
    )
    ring.forEach((u, i) => {
      const v = ring[(i + 1) % ring.length]!
      edges.push({ u, v, length: gap(u, v), required: false })
    })
  }
  return {
    graph: { vertexCount: seams * perRing, edges, positions },
    bands,
    stations,
    stretch: (band, station) => runs.get(`${band} ${((station % stations) + stations) % stations}`)!,
    touch: (band, station) => vertex(side(band, station), station * pieces),
    corner: (seam, station) => vertex(seam, station * pieces),
  }
}

/** Areas around the quilt from `from`: the stretches of the given bands at each station in turn. */
export function aroundPlan(weave: Weave, bands: readonly number[], from = 0): number[][] {
  return Array.from({ length: weave.stations }, (_, j) =>
    bands.flatMap((band) => weave.stretch(band, from + j)),
  )
}

/** Bands by their numbers, from `first` up to but not including `end`. */
export const bandRange = (first: number, end: number): number[] =>
  Array.from({ length: end - first }, (_, i) => first + i)
