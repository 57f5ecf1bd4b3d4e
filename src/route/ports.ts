import type { Network } from './network.ts'
import { shortestPaths } from './shortest-paths.ts'
import type { StageWork } from './stage.ts'

/** At most about this many ways over from one stage to the next are tried. */
const PORT_LIMIT = 8
/** Between stages with many odd vertices one port is nearly as good as another, and each costs more. */
const PORT_LIMIT_MANY = 4
const MANY_ODD = 24

/** The odd vertices that decide at each handover: those of the nearest stage that has any, before and after. */
function nearestOdd(stages: readonly StageWork[], at: number, step: 1 | -1): readonly number[] {
  for (let s = at; s >= 0 && s < stages.length; s += step)
    if (stages[s]!.odd.length > 0) return stages[s]!.odd
  return []
}

/** Evenly spaced members of a list. */
function spread(list: readonly number[], count: number): number[] {
  if (list.length <= count) return [...list]
  return Array.from({ length: count }, (_, i) => list[Math.floor((i * list.length) / count)]!)
}

/** Distances from the vertices of a stage over what that stage may pass. */
function distancesFrom(network: Network, work: StageWork): Float64Array {
  return shortestPaths(
    network,
    work.vertices,
    work.kind.map((k) => (k === 0 ? 1 : 0)),
  ).distance
}

function nearestOf(vertices: readonly number[], distance: Float64Array): number[] {
  let best = -1
  for (const x of vertices) if (best === -1 || distance[x]! < distance[best]!) best = x
  return best !== -1 && Number.isFinite(distance[best]!) ? [best] : []
}

/**
 * Vertices at which the walk may pass from stage `s` to stage `s + 1`. First those that are odd on either side, since
 * a walk that ends at an odd vertex costs nothing there; then vertices that both touch; and the nearest ones.
 */
export function handoverPorts(network: Network, stages: readonly StageWork[], s: number): number[] {
  const a = stages[s]!
  const b = stages[s + 1]!
  const onA = new Set(a.vertices)
  const onB = new Set(b.vertices)
  const shared = a.vertices.filter((x) => onB.has(x))
  const oddA = nearestOdd(stages, s, -1)
  const oddB = nearestOdd(stages, s + 1, 1)
  const inB = new Set(oddB)
  const limit = Math.max(oddA.length, oddB.length) > MANY_ODD ? PORT_LIMIT_MANY : PORT_LIMIT
  const both = oddA.filter((x) => inB.has(x))
  let odd = [...oddA.filter((x) => onB.has(x)), ...oddB.filter((x) => onA.has(x))]
  const rest = [...oddA.filter((x) => !onB.has(x)), ...oddB.filter((x) => !onA.has(x))]
  const near: number[] = []
  if (shared.length === 0 || odd.length + rest.length > limit) {
    const fromA = distancesFrom(network, a)
    const fromB = distancesFrom(network, b)
    const gap = (x: number) => fromA[x]! + fromB[x]!
    rest.sort((x, y) => gap(x) - gap(y) || x - y)
    if (shared.length === 0) near.push(...nearestOf(a.vertices, fromB), ...nearestOf(b.vertices, fromA))
    odd = spread(odd, limit)
  }
  const ports = new Set([...both, ...odd].slice(0, limit))
  for (const x of [...near, ...rest.slice(0, limit - 2), ...spread(shared, 3)]) {
    if (ports.size >= limit + 2) break
    ports.add(x)
  }
  return [...ports]
}
