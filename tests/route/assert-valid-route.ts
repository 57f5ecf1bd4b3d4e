import type { RouteGraph, Walk } from '../../src/route/index.ts'

/** What a route must be true to. */
export interface RouteClaim {
  readonly walks: readonly Walk[]
  /** Price of the extra passes: mm times price. */
  readonly extra: number
}

export interface RouteRules {
  /** The areas in order, each its required edges; within each walk an area is finished before the next begins. */
  readonly areas?: readonly (readonly number[])[]
  /** Prices of edges that name none, and of passing a seam again. */
  readonly travel?: number
  readonly overlap?: number
  readonly travelAgain?: number
}

function fail(message: string): never {
  throw new Error(`not a valid route: ${message}`)
}

function checkContinuity(graph: RouteGraph, walk: Walk): void {
  let at = walk.start
  walk.steps.forEach(({ edge, forward }, i) => {
    const { u, v } = graph.edges[edge] ?? fail(`step ${i} is over edge ${edge}, which does not exist`)
    if (at !== (forward ? u : v)) fail(`step ${i} begins at ${forward ? u : v}, but the line is at ${at}`)
    at = forward ? v : u
  })
  if (at !== walk.end) fail(`the walk ends at ${at}, not at ${walk.end}`)
}

function checkAreas(walks: readonly Walk[], areas: readonly (readonly number[])[]): void {
  const areaOf = new Map(areas.flatMap((edges, a) => edges.map((e) => [e, a] as const)))
  const seen = new Set<number>()
  for (const walk of walks) {
    let now = -1
    for (const { edge, area } of walk.steps) {
      if (area < now) fail(`area ${area} is worked after area ${now}`)
      now = area
      const own = areaOf.get(edge)
      if (own !== undefined && !seen.has(edge) && own !== area)
        fail(`edge ${edge} of area ${own} is first stitched in area ${area}`)
      seen.add(edge)
    }
  }
}

function priceOfWalks(graph: RouteGraph, walks: readonly Walk[], rules: RouteRules): number {
  const { travel = 1, overlap = 8, travelAgain = 1 } = rules
  const passes = new Map<number, number>()
  let sum = 0
  for (const walk of walks)
    for (const { edge } of walk.steps) {
      const { required, length, price } = graph.edges[edge]!
      const before = passes.get(edge) ?? 0
      passes.set(edge, before + 1)
      if (required && before === 0) continue
      sum += length * (price ?? (required ? overlap : travel)) * (!required && before > 0 ? travelAgain : 1)
    }
  return sum
}

/**
 * Checks a route against its graph: every walk is continuous over real edges, every required edge is stitched, areas
 * come in order, and the price is the sum of the extra passes.
 *
 * @throws Error that says what is wrong
 */
export function assertValidRoute(graph: RouteGraph, claim: RouteClaim, rules: RouteRules = {}): void {
  for (const walk of claim.walks) checkContinuity(graph, walk)
  const covered = new Set(claim.walks.flatMap((walk) => walk.steps.map((step) => step.edge)))
  graph.edges.forEach((edge, e) => {
    if (edge.required && !covered.has(e)) fail(`required edge ${e} is not stitched`)
  })
  if (rules.areas) checkAreas(claim.walks, rules.areas)
  const sum = priceOfWalks(graph, claim.walks, rules)
  const tolerance = 0.001 * (1 + graph.edges.length)
  if (Math.abs(sum - claim.extra) > tolerance)
    fail(`the extra passes cost ${sum}, but ${claim.extra} is stated`)
}
