import type { Point } from '../geometry/point.ts'
import type { RouteGraph } from '../route/index.ts'
import type { AreaOrder } from './areas.ts'

const keyOf = ([x, y]: Point): string => `${x.toFixed(2)} ${y.toFixed(2)}`

/** Tells of a place whether an odd number of an area's required edges end there. */
export function oddPlaces(
  { edges, positions = [] }: RouteGraph,
  areas: AreaOrder,
): (at: Point, area: number) => boolean {
  const odd = areas.map((area) => {
    const places = new Set<string>()
    for (const edge of 'required' in area ? area.required : area)
      for (const vertex of [edges[edge]!.u, edges[edge]!.v]) toggle(places, keyOf(positions[vertex]!))
    return places
  })
  return (at, area) => odd[area]?.has(keyOf(at)) ?? false
}

function toggle(places: Set<string>, key: string): void {
  if (!places.delete(key)) places.add(key)
}
