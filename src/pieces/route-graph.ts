import { distance, type Point, scale } from '../geometry/point.ts'
import { directionAt } from '../geometry/segment.ts'
import { type Stroke, strokeLength } from '../geometry/stroke.ts'
import type { RouteEdge, RouteGraph } from '../route/index.ts'
import type { Net } from './net.ts'
import type { Pieces } from './pieces.ts'

/** Price of a second pass in a ditch that is stitched anyway, per mm: as hidden as travel, but over a line. */
const DITCH_AGAIN = 2

/** The net as the route planner knows it: pieces are required edges, stretches of seam may be travelled. */
export function routeGraph(net: Net, pieces: Pieces): RouteGraph {
  const fills = net.fills.map((fill, i): RouteEdge => {
    const { stroke, band } = pieces.pieces[i]!
    return {
      ...fill,
      required: true,
      strand: band,
      directionU: leaving(stroke),
      directionV: leavingEnd(stroke),
    }
  })
  const seams = net.seams.map(
    ({ u, v, ditch, edge }): RouteEdge => ({
      u,
      v,
      length: edge ? strokeLength(edge.stroke) : distance(net.positions[u]!, net.positions[v]!),
      required: ditch !== undefined,
      ...((ditch !== undefined || edge?.isAsked) && { price: DITCH_AGAIN }),
    }),
  )
  return { vertexCount: net.positions.length, edges: [...fills, ...seams], positions: net.positions }
}

const leaving = (stroke: Stroke): Point => directionAt(stroke.start, stroke.segments[0]!, 0)

function leavingEnd(stroke: Stroke): Point {
  const from = stroke.segments.at(-2)?.to ?? stroke.start
  return scale(directionAt(from, stroke.segments.at(-1)!, 1), -1)
}
