import { cross, distance, distanceToLine, type Point, subtract, unit } from '../../src/geometry/point.ts'
import { endOf, flattenStroke } from '../../src/geometry/stroke.ts'
import { areaOrders } from '../../src/pieces/areas.ts'
import { type Net, tieNet } from '../../src/pieces/net.ts'
import type { Pieces } from '../../src/pieces/pieces.ts'
import { routeGraph } from '../../src/pieces/route-graph.ts'
import { threadLine } from '../../src/pieces/thread-line.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'
import { type RouteResult, solveByAreas } from '../../src/route/index.ts'
import type { Line } from '../../src/stitch/line.ts'

/** How far a line may leave its band, mm (containment in the project's design). */
const ROOM = 0.1

function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Error(message)
}

/** How far `p` lies inside a convex outline with corners clockwise on the screen; negative outside. */
export const depthInside = (p: Point, outline: readonly Point[]): number =>
  Math.min(
    ...outline.map((a, i) => cross(unit(subtract(outline[(i + 1) % outline.length]!, a)), subtract(p, a))),
  )

/** The least distance from `p` to a closed outline. */
export const distanceToOutline = (p: Point, outline: readonly Point[]): number =>
  Math.min(...outline.map((a, i) => distanceToLine(p, a, outline[(i + 1) % outline.length]!)))

/** Every piece lies in its band and begins and ends on the rings that it names. */
export function assertPiecesFit(quilt: Quilt, pieces: Pieces): void {
  for (const [i, piece] of pieces.pieces.entries()) {
    for (const [ring, at] of [
      [piece.startRing, piece.stroke.start],
      [piece.endRing, endOf(piece.stroke)],
    ] as const) {
      if (ring === undefined) continue
      const away = distanceToOutline(at, quilt.rings[ring]!)
      demand(away < 1e-6, `piece ${i} ends ${away} mm from ring ${ring}`)
    }
    for (const p of flattenStroke(piece.stroke, 0.01)) {
      const out = -depthInside(p, quilt.rings[piece.band + 1]!)
      demand(out < ROOM, `piece ${i} leaves band ${piece.band} outward by ${out} mm`)
      const inward = depthInside(p, quilt.rings[piece.band]!)
      demand(inward < ROOM, `piece ${i} leaves band ${piece.band} inward by ${inward} mm`)
    }
  }
}

/** Within a group, every station's touches of two neighbouring bands are one vertex: crossing there costs nothing. */
export function assertTouchesMeet(pieces: Pieces, net: Net): void {
  for (const group of pieces.groups) {
    for (let band = group.first; band + 1 < group.first + group.count; band++) {
      const ends = (b: number) =>
        new Set(
          pieces.pieces.flatMap((piece, i) => {
            if (piece.band !== b) return []
            const { u, v } = net.fills[i]!
            return [...(piece.startRing === band + 1 ? [u] : []), ...(piece.endRing === band + 1 ? [v] : [])]
          }),
        )
      const [inner, outer] = [ends(band), ends(band + 1)]
      const shared = [...inner].filter((v) => outer.has(v))
      const sectors = pieces.sectors.filter((s) => pieces.groups[s.group] === group).length
      demand(
        shared.length >= sectors / 2,
        `bands ${band} and ${band + 1} share ${shared.length} touches; ${sectors} sectors`,
      )
    }
  }
}

/** A quilt planned to the end. */
export interface Planned {
  readonly net: Net
  readonly route: RouteResult
  readonly lines: readonly Line[]
}

/**
 * Plans the pieces and checks the route and the lines: no gap, every piece stitched, as few starts as can be.
 *
 * @param tried  how many orders of work are tried
 */
export function planAndCheck(quilt: Quilt, pieces: Pieces, { tried = 3 } = {}): Planned {
  const net = tieNet(quilt, pieces)
  const graph = routeGraph(net, pieces)
  const route = solveByAreas(graph, { plans: areaOrders(pieces, net).slice(0, tried), iterations: 20 })
  demand(
    route.walks.length === route.startsBound,
    `${route.walks.length} starts; ${route.startsBound} needed`,
  )
  const seen = new Set(route.walks.flatMap((walk) => walk.steps.map((step) => step.edge)))
  graph.edges.forEach((edge, e) => {
    demand(!edge.required || seen.has(e), `required edge ${e} is not stitched`)
  })
  const lines = route.walks.map((walk) => threadLine(walk.steps, { pieces, net, thread: '#333333' }))
  for (const line of lines) assertNoGap(line)
  return { net, route, lines }
}

export function assertNoGap(line: Line): void {
  let at: Point | undefined
  for (const [i, part] of line.parts.entries()) {
    if (at) {
      const gap = distance(at, part.stroke.start)
      demand(gap < 0.02, `part ${i} (${part.kind}) begins ${gap} mm from where the one before it ended`)
    }
    at = endOf(part.stroke)
  }
}
