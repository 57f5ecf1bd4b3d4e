import type { NearSearch } from './near-search.ts'
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

/** Distances over what a stage may pass are looked for among so many vertices, and so many times its own. */
const LOOK = 1000
const LOOK_ROUND = 20

/** Distances of some vertices from those of a stage over what that stage may pass, where they lie near it. */
function distancesTo(
  targets: readonly number[],
  { vertices, passable }: StageWork,
  near: NearSearch,
): ReadonlyMap<number, number> {
  const wanted = new Set(targets)
  const distances = new Map<number, number>()
  let left = LOOK + LOOK_ROUND * vertices.length
  near.runFrom(vertices, {
    allows: (e) => passable.allows(e),
    visit: (x, distance) => {
      if (wanted.has(x)) distances.set(x, distance)
      return distances.size === wanted.size || --left <= 0
    },
  })
  return distances
}

/** The vertex of one stage that is nearest to another, the lowest of equals; none if it cannot be reached. */
function nearestTo(to: StageWork, { vertices }: StageWork, near: NearSearch): number[] {
  const wanted = new Set(vertices)
  let found: { x: number; distance: number } | undefined
  near.runFrom(to.vertices, {
    allows: (e) => to.passable.allows(e),
    visit: (x, distance) => {
      if (found && distance > found.distance) return true
      if (wanted.has(x) && (!found || x < found.x)) found = { x, distance }
      return false
    },
  })
  return found ? [found.x] : []
}

/**
 * Vertices at which the walk may pass from stage `s` to stage `s + 1`. First those that are odd on either side, since
 * a walk that ends at an odd vertex costs nothing there; then vertices that both touch; and the nearest ones.
 */
export function handoverPorts(near: NearSearch, stages: readonly StageWork[], s: number): number[] {
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
  const closest: number[] = []
  if (shared.length === 0 || odd.length + rest.length > limit) {
    const [fromA, fromB] = [distancesTo(rest, a, near), distancesTo(rest, b, near)]
    const far = Number.MAX_VALUE / 4
    const gap = (x: number) => (fromA.get(x) ?? far) + (fromB.get(x) ?? far)
    rest.sort((x, y) => gap(x) - gap(y) || x - y)
    if (shared.length === 0) closest.push(...nearestTo(b, a, near), ...nearestTo(a, b, near))
    odd = spread(odd, limit)
  }
  const ports = new Set([...both, ...odd].slice(0, limit))
  for (const x of [...closest, ...rest.slice(0, limit - 2), ...spread(shared, 3)]) {
    if (ports.size >= limit + 2) break
    ports.add(x)
  }
  return [...ports]
}
