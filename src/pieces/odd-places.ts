import type { Point } from '../geometry/point.ts'
import type { RouteGraph } from '../route/index.ts'
import type { AreaOrder } from './areas.ts'

const keyOf = ([x, y]: Point): string => `${x.toFixed(2)} ${y.toFixed(2)}`

/** Tells of a place whether an odd number of an area's required edges end there; reckons an area when it is first asked of. */
export function oddPlaces(
  { edges, positions = [] }: RouteGraph,
  areas: AreaOrder,
): (at: Point, area: number) => boolean {
  const reckoned = new Map<number, ReadonlySet<string>>()
  const oddIn = (area: AreaOrder[number]): ReadonlySet<string> => {
    const vertices = new Set<number>()
    for (const edge of 'required' in area ? area.required : area)
      for (const vertex of [edges[edge]!.u, edges[edge]!.v]) toggle(vertices, vertex)
    // Several vertices can lie at one place.
    const places = new Set<string>()
    for (const vertex of vertices) toggle(places, keyOf(positions[vertex]!))
    return places
  }
  return (at, index) => {
    const area = areas[index]
    if (!area) return false
    const odd = reckoned.get(index) ?? oddIn(area)
    reckoned.set(index, odd)
    return odd.has(keyOf(at))
  }
}

function toggle<T>(set: Set<T>, member: T): void {
  if (!set.delete(member)) set.add(member)
}
