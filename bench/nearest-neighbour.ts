import { ROUTE_WEIGHTS, type RouteGraph } from '../src/route/index.ts'
import { networkOf } from '../src/route/postman.ts'
import { Metric } from '../src/route/shortest-paths.ts'

interface Visit {
  readonly edge: number
  readonly from: number
  readonly to: number
}

/** How far a piece may be moved by one 2-opt exchange; keeps a round linear. */
const WINDOW = 40

const turned = ({ edge, from, to }: Visit): Visit => ({ edge, from: to, to: from })

/** Takes the piece whose nearer end is nearest, again and again. */
function nearestFirst(graph: RouteGraph, metric: Metric): Visit[] {
  const open = new Map<number, Set<number>>()
  let left = 0
  graph.edges.forEach(({ u, v, required }, e) => {
    if (!required) return
    left++
    for (const x of [u, v]) open.set(x, (open.get(x) ?? new Set()).add(e))
  })
  const visits: Visit[] = []
  let at = graph.edges.find((e) => e.required)!.u
  for (; left > 0; left--) {
    metric.near.run(at, (x) => {
      const [edge] = open.get(x) ?? []
      if (edge === undefined) return false
      const { u, v } = graph.edges[edge]!
      open.get(u)!.delete(edge)
      open.get(v)!.delete(edge)
      visits.push({ edge, from: x, to: u === x ? v : u })
      at = u === x ? v : u
      return true
    })
  }
  return visits
}

/** Reverses stretches of the sequence while that shortens it. */
function twoOpt(visits: Visit[], distance: (a: number, b: number) => number): void {
  for (let better = true; better; ) {
    better = false
    for (let i = 0; i + 1 < visits.length; i++)
      for (let j = i + 1; j < Math.min(visits.length, i + WINDOW); j++) {
        const before = i > 0 ? visits[i - 1]!.to : undefined
        const after = visits[j + 1]?.from
        const cost = (first: number, last: number) =>
          (before === undefined ? 0 : distance(before, first)) +
          (after === undefined ? 0 : distance(last, after))
        if (cost(visits[j]!.to, visits[i]!.from) >= cost(visits[i]!.from, visits[j]!.to)) continue
        visits.splice(
          i,
          j - i + 1,
          ...visits
            .slice(i, j + 1)
            .reverse()
            .map(turned),
        )
        better = true
      }
  }
}

/** The baseline without areas: nearest neighbour, then 2-opt; the price of the ways between the pieces, mm. */
export function nearestNeighbour(graph: RouteGraph): { extra: number; order: number[] } {
  const metric = new Metric(networkOf(graph, ROUTE_WEIGHTS))
  const visits = nearestFirst(graph, metric)
  twoOpt(visits, (a, b) => (a === b ? 0 : metric.distance(a, b)))
  const extra = visits.reduce(
    (sum, v, i) => sum + (i > 0 ? metric.distance(visits[i - 1]!.to, v.from) : 0),
    0,
  )
  return { extra: extra / 1000, order: visits.map((v) => v.edge) }
}
