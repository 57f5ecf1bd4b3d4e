import type { Area } from './area-order.ts'
import type { Network } from './network.ts'
import type { StageWork } from './stage.ts'
import { UnionFind } from './union-find.ts'

/** The vertices of some edges and those among them of odd degree, ascending. */
function vertexFacts(network: Network, pieces: readonly number[]): Pick<StageWork, 'odd' | 'vertices'> {
  const degree = new Map<number, number>()
  for (const e of pieces)
    for (const x of [network.u[e]!, network.v[e]!]) degree.set(x, (degree.get(x) ?? 0) + 1)
  const vertices = [...degree.keys()].sort((a, b) => a - b)
  return { vertices, odd: vertices.filter((x) => degree.get(x)! % 2 === 1) }
}

function passable(network: Network, area: Area): Uint8Array {
  const kind = new Uint8Array(network.edgeCount)
  if (area.travel) for (const e of area.travel) kind[e] = 2
  else for (let e = 0; e < kind.length; e++) if (!network.required[e]) kind[e] = 2
  for (const e of area.required) kind[e] = 1
  return kind
}

function joined(network: Network, kind: Uint8Array): UnionFind {
  const sets = new UnionFind(network.vertexCount)
  for (let e = 0; e < kind.length; e++) if (kind[e] !== 0) sets.union(network.u[e]!, network.v[e]!)
  return sets
}

/** The required edges of an area by the piece of the passable network that they lie in, first met first. */
function groups(network: Network, pieces: readonly number[], sets: UnionFind): number[][] {
  const byRoot = new Map<number, number[]>()
  for (const e of pieces) {
    const root = sets.find(network.u[e]!)
    const group = byRoot.get(root)
    if (group) group.push(e)
    else byRoot.set(root, [e])
  }
  return [...byRoot.values()]
}

/** Puts the group that goes on from what was stitched before first, where there is one. */
function continueFirst(
  network: Network,
  all: number[][],
  from: { sets: UnionFind; root: number },
): number[][] {
  const goesOn = (group: number[]) => from.sets.find(network.u[group[0]!]!) === from.root
  return [...all.filter(goesOn), ...all.filter((group) => !goesOn(group))]
}

/**
 * In networks of up to so many edges every area may pass again over pieces that earlier areas stitched. In larger ones,
 * where seams and the area's own pieces are nearly always cheaper, only an area that cannot be reached otherwise.
 */
const RETRACE_LIMIT = 2000

/**
 * Divides areas into stages: the parts of an area that one walk can reach over seams, its own pieces, and pieces stitched
 * in earlier areas as RETRACE_LIMIT allows. What is still apart becomes a stage of its own, with a
 * new thread start.
 */
export function stagesOf(network: Network, areas: readonly { area: number; of: Area }[]): StageWork[] {
  const stages: StageWork[] = []
  const done: number[] = []
  for (const { area, of } of areas) {
    if (of.required.length === 0) continue
    let kind = passable(network, of)
    let sets = joined(network, kind)
    let parts = groups(network, of.required, sets)
    const last = stages.at(-1)
    const reachesBack = (): boolean =>
      !last || last.vertices.some((x) => sets.find(x) === sets.find(network.u[parts[0]![0]!]!))
    const retraces = network.edgeCount <= RETRACE_LIMIT || parts.length > 1 || !reachesBack()
    if (retraces && done.length > 0 && !of.travel) {
      kind = kind.slice()
      for (const e of done) kind[e] = 2
      sets = joined(network, kind)
      parts = groups(network, of.required, sets)
    }
    if (last) parts = continueFirst(network, parts, { sets, root: sets.find(last.vertices[0]!) })
    for (const pieces of parts)
      stages.push(stageWork(network, { area, pieces, kind, split: parts.length > 1 }))
    done.push(...of.required)
  }
  return stages
}

function stageWork(
  network: Network,
  from: { area: number; pieces: readonly number[]; kind: Uint8Array; split: boolean },
): StageWork {
  const { area, pieces } = from
  let { kind } = from
  if (from.split) {
    kind = kind.map((k) => (k === 1 ? 0 : k))
    for (const e of pieces) kind[e] = 1
  }
  return { area, pieces, kind, ...vertexFacts(network, pieces) }
}
