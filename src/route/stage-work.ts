import type { Area } from './area-order.ts'
import type { Network } from './network.ts'
import { Passable } from './passable.ts'
import type { StageWork } from './stage.ts'
import { UnionFind } from './union-find.ts'

/** What is found out about a list of pieces. */
interface PieceFacts extends Pick<StageWork, 'odd' | 'vertices' | 'key'> {}

/** What can be passed over whatever was stitched before, and what hangs together by it. */
interface Ground {
  readonly sets: UnionFind
  readonly passable: Passable
}

/** An edge of this rank may never be passed over. */
const NEVER = 2 ** 30
const SEAM = -1

/** What the plans over one network have in common: found once for each area or list of pieces, however many plans hold it. */
export class Workshop {
  private readonly facts = new Map<readonly number[], PieceFacts>()
  private readonly keys = new Map<string, number>()
  private readonly grounds = new Map<readonly number[], Ground>()
  /** All seams. */
  readonly seams: Ground

  constructor(readonly network: Network) {
    const rank = Int32Array.from(network.required, (required) => (required ? NEVER : SEAM))
    this.seams = this.groundOf(rank, 'all')
  }

  private groundOf(rank: Int32Array, key: string): Ground {
    const { u, v, vertexCount, edgeCount } = this.network
    const sets = new UnionFind(vertexCount)
    for (let e = 0; e < edgeCount; e++) if (rank[e] === SEAM) sets.union(u[e]!, v[e]!)
    return { sets, passable: new Passable(rank, 0, key) }
  }

  /** The seams that an area names, or else all. */
  groundFor(travel: readonly number[] | undefined): Ground {
    if (!travel) return this.seams
    let ground = this.grounds.get(travel)
    if (!ground) {
      const rank = new Int32Array(this.network.edgeCount).fill(NEVER)
      for (const e of travel) rank[e] = SEAM
      ground = this.groundOf(rank, `${this.grounds.size}`)
      this.grounds.set(travel, ground)
    }
    return ground
  }

  /** The vertices of some pieces, those among them of odd degree, ascending, and a number for the same pieces. */
  factsOf(pieces: readonly number[]): PieceFacts {
    let facts = this.facts.get(pieces)
    if (!facts) {
      facts = this.findFacts(pieces)
      this.facts.set(pieces, facts)
    }
    return facts
  }

  private findFacts(pieces: readonly number[]): PieceFacts {
    const { u, v } = this.network
    const degree = new Map<number, number>()
    for (const e of pieces) for (const x of [u[e]!, v[e]!]) degree.set(x, (degree.get(x) ?? 0) + 1)
    const vertices = [...degree.keys()].sort((a, b) => a - b)
    const name = pieces.join()
    const key = this.keys.get(name) ?? this.keys.size
    this.keys.set(name, key)
    return { vertices, odd: vertices.filter((x) => degree.get(x)! % 2 === 1), key }
  }
}

/** Sets that are joined further for one area only. */
class JoinedSets {
  private readonly above = new Map<number, number>()

  constructor(private readonly sets: UnionFind) {}

  find(x: number): number {
    let at = this.sets.find(x)
    for (;;) {
      const up = this.above.get(at)
      if (up === undefined) return at
      const over = this.above.get(up)
      if (over !== undefined) this.above.set(at, over)
      at = up
    }
  }

  union(a: number, b: number): void {
    const [x, y] = [this.find(a), this.find(b)]
    if (x !== y) this.above.set(x, y)
  }
}

/** What hangs together by given sets and the pieces of an area. */
function joinedBy(network: Network, sets: UnionFind, pieces: readonly number[]): JoinedSets {
  const joined = new JoinedSets(sets)
  for (const e of pieces) joined.union(network.u[e]!, network.v[e]!)
  return joined
}

/** The required edges of an area by the piece of the passable network that they lie in, first met first. */
function groups(network: Network, pieces: readonly number[], sets: JoinedSets): (readonly number[])[] {
  const byRoot = new Map<number, number[]>()
  for (const e of pieces) {
    const root = sets.find(network.u[e]!)
    const group = byRoot.get(root)
    if (group) group.push(e)
    else byRoot.set(root, [e])
  }
  return byRoot.size === 1 ? [pieces] : [...byRoot.values()]
}

/** Puts the group that goes on from what was stitched before first, where there is one. */
function continueFirst(
  network: Network,
  all: readonly (readonly number[])[],
  from: { sets: JoinedSets; root: number },
): (readonly number[])[] {
  const goesOn = (group: readonly number[]) => from.sets.find(network.u[group[0]!]!) === from.root
  return [...all.filter(goesOn), ...all.filter((group) => !goesOn(group))]
}

/**
 * In networks of up to so many edges every area may pass again over pieces that earlier areas stitched. In larger ones,
 * where seams and the area's own pieces are nearly always cheaper, only an area that cannot be reached otherwise.
 */
const RETRACE_LIMIT = 2000

/** What was stitched in earlier areas. */
class Done {
  readonly sets: UnionFind
  private readonly rank: Int32Array
  private areas = 0
  private hash = 7

  constructor({ network, seams }: Workshop) {
    this.sets = seams.sets.copy()
    this.rank = Int32Array.from(network.required, (required) => (required ? NEVER : SEAM))
  }

  get isEmpty(): boolean {
    return this.areas === 0
  }

  /** All seams, and the pieces stitched so far. */
  get passable(): Passable {
    return new Passable(this.rank, this.areas, `all ${this.hash}`)
  }

  add(network: Network, { pieces, key }: { pieces: readonly number[]; key: number }): void {
    for (const e of pieces) {
      this.rank[e] = this.areas
      this.sets.union(network.u[e]!, network.v[e]!)
    }
    this.areas++
    this.hash = (this.hash * 31 + key + 1) % 1_000_000_007
  }
}

/**
 * Divides areas into stages: the parts of an area that one walk can reach over seams, its own pieces, and pieces stitched
 * in earlier areas as RETRACE_LIMIT allows. What is still apart becomes a stage of its own, with a
 * new thread start.
 */
export function stagesOf(workshop: Workshop, areas: readonly { area: number; of: Area }[]): StageWork[] {
  const { network } = workshop
  const stages: StageWork[] = []
  const done = new Done(workshop)
  for (const { area, of } of areas) {
    if (of.required.length === 0) continue
    const ground = workshop.groundFor(of.travel)
    let { passable } = ground
    let sets = joinedBy(network, ground.sets, of.required)
    let parts = groups(network, of.required, sets)
    const last = stages.at(-1)
    const reachesBack = (): boolean => {
      const root = sets.find(network.u[parts[0]![0]!]!)
      return !last || last.vertices.some((x) => sets.find(x) === root)
    }
    const retraces = network.edgeCount <= RETRACE_LIMIT || parts.length > 1 || !reachesBack()
    if (retraces && !done.isEmpty && !of.travel) {
      passable = done.passable
      sets = joinedBy(network, done.sets, of.required)
      parts = groups(network, of.required, sets)
    }
    if (last) parts = continueFirst(network, parts, { sets, root: sets.find(last.vertices[0]!) })
    for (const pieces of parts) stages.push({ area, pieces, passable, ...workshop.factsOf(pieces) })
    done.add(network, { pieces: of.required, key: workshop.factsOf(of.required).key })
  }
  return stages
}
