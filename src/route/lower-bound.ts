import { contract } from './contract.ts'
import { checkGraph, type RouteGraph } from './graph.ts'
import type { Network } from './network.ts'
import { networkOf, type PostmanOptions } from './postman.ts'
import type { FreeEnds } from './t-join.ts'
import { Task } from './task.ts'
import { UnionFind } from './union-find.ts'
import { ROUTE_WEIGHTS } from './weights.ts'

/** What no route can beat. */
export interface LowerBound {
  /** The least price of extra passes of any route with `starts` walks, in whatever order it works. */
  readonly cost: number
  /** The least number of walks: the pieces of the graph that hold required edges. */
  readonly starts: number
}

/** A part of the graph that no edge joins to the rest, with its required edges. */
export interface Piece {
  readonly required: readonly number[]
  readonly edges: readonly number[]
  readonly vertices: ReadonlySet<number>
}

/** The separate parts of a network that hold required edges, in the order of their first required edge. */
export function requiredPieces(network: Network): Piece[] {
  const sets = new UnionFind(network.vertexCount)
  for (let e = 0; e < network.edgeCount; e++) sets.union(network.u[e]!, network.v[e]!)
  const found = new Map<number, { required: number[]; edges: number[]; vertices: Set<number> }>()
  for (let e = 0; e < network.edgeCount; e++) {
    const root = sets.find(network.u[e]!)
    let piece = found.get(root)
    if (!piece) {
      piece = { required: [], edges: [], vertices: new Set() }
      found.set(root, piece)
    }
    piece.edges.push(e)
    piece.vertices.add(network.u[e]!).add(network.v[e]!)
    if (network.required[e]) piece.required.push(e)
  }
  return [...found.values()]
    .filter((piece) => piece.required.length > 0)
    .sort((a, b) => a.required[0]! - b.required[0]!)
}

function pieceBound(network: Network, piece: Piece, options: PostmanOptions): number {
  const kind = new Uint8Array(network.edgeCount)
  for (const e of piece.edges) kind[e] = network.required[e] ? 1 : 2
  const fixed = [options.start, options.end].filter(
    (x) => x !== undefined && piece.vertices.has(x),
  ) as number[]
  const local = contract(network, { kind, keep: fixed })
  const free = options.closed ? 0 : ((2 - fixed.length) as FreeEnds)
  const ends = options.closed ? [] : fixed.map((x) => local.local[x]!)
  return new Task(local.network, { fixed: ends, free }).join([])?.cost ?? 0
}

/** The bound of a network whose costs are thousandths. */
export function networkBound(network: Network, options: PostmanOptions): LowerBound {
  const pieces = requiredPieces(network)
  const cost = pieces.reduce((sum, piece) => sum + pieceBound(network, piece, options), 0)
  return { cost: cost / 1000, starts: pieces.length }
}

/**
 * A proof about every route: the least T-join of the odd vertices, without regard to connection and the order of areas.
 *
 * @source Edmonds & Johnson, Math. Programming 5 (1973): any walk's extra passes contain a T-join
 */
export function lowerBound(graph: RouteGraph, options: PostmanOptions = {}): LowerBound {
  checkGraph(graph)
  return networkBound(networkOf(graph, options.prices ?? ROUTE_WEIGHTS), options)
}
