import type { RouteGraph } from '../route/index.ts'
import { type AreaOrder, asArea } from './areas.ts'

/**
 * The orders, each so that the line can begin at `start`. A seam that is asked for can't be run along before it is
 * stitched: where such seams cut the start off from the first area, what lies on the way there is stitched with it.
 */
export const withWayIn = (orders: readonly AreaOrder[], graph: RouteGraph, start: number): AreaOrder[] =>
  orders.map((order) => {
    const added = wayIn(order, graph, start)
    return added.length > 0 ? movedFirst(order, added, graph) : order
  })

/**
 * The orders, and beside each whose last area is cut off from `end` likewise, one where what lies on the way there is
 * stitched last.
 */
export const withWayOut = (orders: readonly AreaOrder[], graph: RouteGraph, end: number): AreaOrder[] =>
  orders.flatMap((order) => {
    const back = [...order].reverse()
    const [led] = withWayIn([back], graph, end)
    return led === back ? [order] : [order, [...led!].reverse()]
  })

/** The edges that the first area lacks on the way to it from `start`. */
function wayIn([first]: AreaOrder, graph: RouteGraph, start: number): number[] {
  if (!first) return []
  const { required, travel } = asArea(first)
  const { edges } = graph
  const targets = new Set(required.flatMap((e) => [edges[e]!.u, edges[e]!.v]))
  const open = new Set(travel ? [...travel, ...required] : required)
  const isOpen = (e: number) => open.has(e) || (!travel && !edges[e]!.required)
  const isSeam = (e: number) => edges[e]!.strand === undefined
  const way = [isOpen, (e: number) => isOpen(e) || isSeam(e), () => true]
    .map((mayPass) => shortestWay(graph, { from: start, to: targets, mayPass }))
    .find((found) => found !== undefined)
  return (way ?? []).filter((e) => !isOpen(e))
}

/** The edges of a way with as few of them as can be; undefined where there is none. */
function shortestWay(
  { edges, vertexCount }: RouteGraph,
  { from, to, mayPass }: { from: number; to: ReadonlySet<number>; mayPass: (edge: number) => boolean },
): number[] | undefined {
  const beside: { edge: number; to: number }[][] = Array.from({ length: vertexCount }, () => [])
  edges.forEach(({ u, v }, edge) => {
    if (!mayPass(edge)) return
    beside[u]!.push({ edge, to: v })
    beside[v]!.push({ edge, to: u })
  })
  const ways = new Map<number, { edge: number; before: number } | undefined>([[from, undefined]])
  for (const [x] of ways) {
    if (to.has(x)) return edgesTo(x, ways)
    for (const { edge, to: y } of beside[x]!) if (!ways.has(y)) ways.set(y, { edge, before: x })
  }
  return undefined
}

function edgesTo(
  end: number,
  ways: ReadonlyMap<number, { edge: number; before: number } | undefined>,
): number[] {
  const list: number[] = []
  for (let at = ways.get(end); at; at = ways.get(at.before)) list.unshift(at.edge)
  return list
}

/** The order with some edges put into its first area: to be stitched in it instead of later, or to be travelled. */
function movedFirst(
  [first, ...others]: AreaOrder,
  added: readonly number[],
  { edges }: RouteGraph,
): AreaOrder {
  const moved = new Set(added.filter((e) => edges[e]!.required))
  const { required: own, travel } = asArea(first!)
  const more = added.filter((e) => !moved.has(e))
  return [
    { required: [...own, ...moved], ...(travel && { travel: [...travel, ...more] }) },
    ...others.map(asArea).flatMap((area) => {
      const required = area.required.filter((e) => !moved.has(e))
      return required.length > 0 ? [{ ...area, required }] : []
    }),
  ]
}
