import fc from 'fast-check'
import type { RouteEdge, RouteGraph } from '../../src/route/index.ts'

/** A walk's ends, as the postman takes them. */
export interface WalkEnds {
  readonly start?: number
  readonly end?: number
  readonly closed?: boolean
}

/** What a graph may contain. */
export interface SmallShape {
  readonly vertices: number
  readonly required: number
  readonly optional: number
}

const anEdge = (vertices: number, required: boolean): fc.Arbitrary<RouteEdge> =>
  fc.record({
    u: fc.nat(vertices - 1),
    v: fc.nat(vertices - 1),
    length: fc.integer({ min: 0, max: 20 }),
    required: fc.constant(required),
    price: fc.constantFrom(1, 1, 2),
  })

/** Graphs in one piece, with parallel edges, loops, edges of no length and loose required pieces. */
export const smallGraph = ({ vertices, required, optional }: SmallShape): fc.Arbitrary<RouteGraph> =>
  fc
    .tuple(
      fc.array(anEdge(vertices, true), { minLength: 1, maxLength: required }),
      fc.array(anEdge(vertices, false), { maxLength: optional }),
      fc.array(fc.integer({ min: 0, max: 30 }), { minLength: vertices - 1, maxLength: vertices - 1 }),
    )
    .map(([pieces, seams, spine]) => ({
      vertexCount: vertices,
      edges: [
        ...pieces,
        ...seams,
        ...spine.map((length, i) => ({ u: i, v: i + 1, length, required: false, price: 1 })),
      ],
    }))

/** Kinds of ends by name. */
export const WALK_ENDS: Readonly<Record<string, (graph: RouteGraph) => WalkEnds>> = {
  closed: () => ({ closed: true }),
  'closed at vertex 0': () => ({ closed: true, start: 0 }),
  open: () => ({}),
  'from vertex 0': () => ({ start: 0 }),
  'from vertex 0 to the last': (graph) => ({ start: 0, end: graph.vertexCount - 1 }),
  'from vertex 1 and back': () => ({ start: 1, end: 1 }),
}

interface Search {
  readonly graph: RouteGraph
  readonly required: readonly number[]
  /** Required edges (bits) that must be done before edge e may be stitched. */
  readonly before: (bit: number) => number
}

/** The cheapest extra from one vertex to every vertex with everything stitched, by search over (vertex, edges done). */
function finishFrom({ graph, required, before }: Search, source: number): Float64Array {
  const full = (1 << required.length) - 1
  const n = graph.vertexCount
  const best = new Float64Array(n * (full + 1)).fill(Number.POSITIVE_INFINITY)
  const bitOf = new Map(required.map((e, i) => [e, 1 << i]))
  best[source] = 0
  const settled = new Uint8Array(best.length)
  const open = new Set([source])
  while (open.size > 0) {
    let at = -1
    for (const s of open) if (at === -1 || best[s]! < best[at]!) at = s
    open.delete(at)
    settled[at] = 1
    const x = at % n
    const done = Math.floor(at / n)
    graph.edges.forEach((edge, e) => {
      if (edge.u !== x && edge.v !== x) return
      const bit = bitOf.get(e) ?? 0
      const fresh = bit !== 0 && (done & bit) === 0
      if (fresh && (done & before(bit)) !== before(bit)) return
      const next = (edge.u === x ? edge.v : edge.u) + n * (done | bit)
      const cost = best[at]! + (fresh ? 0 : edge.length * edge.price!)
      if (settled[next] || cost >= best[next]!) return
      best[next] = cost
      open.add(next)
    })
  }
  return best.slice(n * full)
}

/**
 * The least extra of any walk over all required edges, by exhaustive search.
 *
 * @param areas  if given, an area's edges may only be stitched once all earlier areas are done
 */
export function bruteForce(
  graph: RouteGraph,
  ends: WalkEnds,
  areas?: readonly (readonly number[])[],
): number {
  const required = graph.edges.flatMap((edge, e) => (edge.required ? [e] : []))
  const maskOf = (edges: readonly number[]) => edges.reduce((mask, e) => mask | (1 << required.indexOf(e)), 0)
  const before = (bit: number): number => {
    if (!areas) return 0
    const own = areas.findIndex((area) => maskOf(area) & bit)
    return maskOf(areas.slice(0, own).flat())
  }
  let best = Number.POSITIVE_INFINITY
  const on = new Set(required.flatMap((e) => [graph.edges[e]!.u, graph.edges[e]!.v]))
  const starts = ends.start !== undefined ? [ends.start] : [...on]
  for (const start of starts) {
    const finish = finishFrom({ graph, required, before }, start)
    const stops = ends.closed ? [start] : ends.end !== undefined ? [ends.end] : [...finish.keys()]
    for (const x of stops) best = Math.min(best, finish[x]!)
  }
  return best
}

/** The same graph with its vertices, and the order and direction of its edges, changed by a seedless permutation. */
export function relabel(
  graph: RouteGraph,
  step: number,
): { graph: RouteGraph; vertex: (x: number) => number } {
  const n = graph.vertexCount
  const vertex = (x: number) => (x * step + 1) % n
  const edges = graph.edges.map((e, i) =>
    i % 2 === 0 ? { ...e, u: vertex(e.u), v: vertex(e.v) } : { ...e, u: vertex(e.v), v: vertex(e.u) },
  )
  return { graph: { vertexCount: n, edges: edges.reverse() }, vertex }
}
