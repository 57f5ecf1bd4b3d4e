import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { eulerWalk, type Pass } from '../../src/route/euler-walk.ts'
import type { RouteGraph } from '../../src/route/index.ts'

type Edge = RouteGraph['edges'][number]
const edge = (u: number, v: number, more: Partial<Edge> = {}): Edge => ({
  u,
  v,
  length: 10,
  required: true,
  ...more,
})

/** The vertices that a walk comes to, in order. */
function visited({ edges }: RouteGraph, passes: readonly Pass[]): number[] {
  return passes.flatMap(({ edge, forward }, i) => {
    const { u, v } = edges[edge]!
    const [from, to] = forward ? [u, v] : [v, u]
    return i === 0 ? [from, to] : [to]
  })
}

function assertWalk(graph: RouteGraph, passes: readonly Pass[]): void {
  passes.slice(1).forEach(({ edge, forward }, i) => {
    const before = graph.edges[passes[i]!.edge]!
    const after = graph.edges[edge]!
    expect(forward ? after.u : after.v).toBe(passes[i]!.forward ? before.v : before.u)
  })
}

/** Places far enough apart for every edge to have a direction. */
const places = fc.uniqueArray(fc.tuple(fc.nat(20), fc.nat(20)), {
  minLength: 6,
  maxLength: 6,
  selector: ([x, y]) => 21 * x + y,
})

describe('any walk', () => {
  it('passes each edge as often as it is given, each pass beginning where the one before it ended', () => {
    fc.assert(
      fc.property(
        places,
        fc.array(fc.nat(5), { minLength: 2, maxLength: 16 }),
        fc.boolean(),
        fc.infiniteStream(fc.boolean()),
        (positions, way, hasPlaces, turned) => {
          // Any way over vertices has an Euler walk over its own edges: itself.
          const edges = way.slice(1).map((v, i) => {
            const [from, to] = [way[i]!, v]
            return turned.next().value ? edge(to, from) : edge(from, to)
          })
          const graph: RouteGraph = { vertexCount: 6, edges, ...(hasPlaces && { positions }) }
          const task = { edges: edges.map((_, e) => e), start: way[0]!, end: way.at(-1)! }
          const passes = eulerWalk(graph, task)
          assertWalk(graph, passes)
          expect(passes.map((pass) => pass.edge).sort((a, b) => a - b)).toEqual(task.edges)
          const at = visited(graph, passes)
          expect([at[0], at.at(-1)]).toEqual([task.start, task.end])
        },
      ),
      { seed: 3, numRuns: 300 },
    )
  })

  it('has no pass where there is nothing to walk', () => {
    expect(eulerWalk({ vertexCount: 1, edges: [] }, { edges: [], start: 0, end: 0 })).toEqual([])
  })

  it('says what is wrong with a start that it does not touch, and with parts that hang apart', () => {
    const apart = { vertexCount: 5, edges: [edge(0, 1), edge(2, 3)] }
    expect(() => eulerWalk(apart, { edges: [0], start: 4, end: 1 })).toThrow(/touches its start 4/)
    expect(() => eulerWalk(apart, { edges: [0, 0, 1, 1], start: 0, end: 0 })).toThrow(/everything/)
  })
})

/** Arms out of vertex 0 at angles in degrees: arm i leads to vertex i + 1. */
const star = (degrees: readonly number[]): Point[] => [
  [0, 0],
  ...degrees.map((turn): Point => {
    const angle = (turn * Math.PI) / 180
    return [10 * Math.cos(angle), 10 * Math.sin(angle)]
  }),
]

/** Walks a graph whose edges are listed in any order and direction; says by which arms each pair of passes goes on at vertex 0. */
function turnsAtStar(
  { positions, edges, start, end }: { positions: Point[]; edges: Edge[]; start: number; end: number },
  check: (turns: Set<string>, at: number[]) => void,
): void {
  const order = fc.shuffledSubarray([...edges.keys()], { minLength: edges.length })
  fc.assert(
    fc.property(order, fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }), (list, turned) => {
      const shuffled = list.map((e, i) => {
        const { u, v, ...rest } = edges[e]!
        return turned[i]! ? { u: v, v: u, ...rest } : { u, v, ...rest }
      })
      const graph: RouteGraph = { vertexCount: positions.length, positions, edges: shuffled }
      const passes = eulerWalk(graph, { edges: shuffled.map((_, e) => e), start, end })
      assertWalk(graph, passes)
      const at = visited(graph, passes)
      const turns = at.flatMap((vertex, i) => {
        const [before, after] = [at[i - 1], at[i + 1]]
        if (vertex !== 0 || before === undefined || after === undefined) return []
        return [[before, after].sort((a, b) => a - b).join('-')]
      })
      check(new Set(turns), at)
    }),
    { seed: 5, numRuns: 40 },
  )
}

const arms = (count: number, more: (i: number) => Partial<Edge> = () => ({})): Edge[] =>
  Array.from({ length: count }, (_, i) => edge(0, i + 1, more(i)))

describe('where lines meet, in whatever order their edges are listed', () => {
  it('each of three lines goes straight on', () => {
    // Arms opposite each other are 1 and 4, 2 and 5, 3 and 6.
    const positions = star([0, 60, 120, 180, 240, 300])
    const edges = [...arms(6), edge(4, 2), edge(5, 3)]
    turnsAtStar({ positions, edges, start: 1, end: 6 }, (turns) => {
      expect(turns).toEqual(new Set(['1-4', '2-5', '3-6']))
    })
  })

  it('lines that are not quite straight keep to the straightest', () => {
    const positions = star([0, 70, 120, 170, 255, 290])
    const edges = [...arms(6), edge(4, 2), edge(5, 3)]
    turnsAtStar({ positions, edges, start: 1, end: 6 }, (turns) => {
      expect(turns).toEqual(new Set(['1-4', '2-5', '3-6']))
    })
  })

  it('a strand is kept to, however sharply it turns', () => {
    const positions = star([0, 60, 120, 180, 240, 300])
    const strands = [7, 7, 8, 8, 9, 9]
    const edges = [...arms(6, (i) => ({ strand: strands[i]! })), edge(2, 3), edge(4, 5)]
    turnsAtStar({ positions, edges, start: 1, end: 6 }, (turns) => {
      expect(turns).toEqual(new Set(['1-2', '3-4', '5-6']))
    })
  })

  // Going straight on, two closed trails cross at vertex 0: they are made one at the lesser of two turns.
  it.each([
    [80, ['1-4', '2-3']],
    [100, ['1-3', '2-4']],
  ])('two closed lines at %i degrees to each other become one where that turns least', (tilt, least) => {
    const positions = star([0, 180, tilt, tilt + 180])
    const edges = [...arms(4), edge(1, 2), edge(3, 4)]
    turnsAtStar({ positions, edges, start: 1, end: 1 }, (turns) => {
      expect(turns).toEqual(new Set(least))
    })
  })

  it('of three closed lines the two whose exchange turns least are joined first', () => {
    // Lines at 0, 20 and 90 degrees. The first two lie almost along each other: 1 goes on along 4, 2 along 3. The third
    // is then joined to one of these turns.
    const positions = star([0, 180, 20, 200, 90, 270])
    const edges = [...arms(6), edge(1, 2), edge(3, 4), edge(5, 6)]
    turnsAtStar({ positions, edges, start: 1, end: 1 }, (turns) => {
      expect([...turns].filter((turn) => turn === '1-4' || turn === '2-3')).toHaveLength(1)
    })
  })

  it('a closed walk begins and ends at the sharpest turn of its start', () => {
    // Straight on from 1 to 2; sharply from 3 to 4.
    const positions = star([0, 180, 90, 100])
    const edges = [...arms(4), edge(2, 3), edge(4, 1)]
    turnsAtStar({ positions, edges, start: 0, end: 0 }, (turns, at) => {
      expect(turns).toEqual(new Set(['1-2']))
      expect([at[1], at.at(-2)].sort()).toEqual([3, 4])
    })
  })

  it('nothing is passed back over at once while there is another way', () => {
    // Arm 1 is passed twice: out along arm 2 and back along arm 3 is sharper than back over the same arm, by places alone.
    const positions = star([0, 10, 350])
    const edges = [edge(0, 1), edge(0, 1), edge(0, 2), edge(0, 3), edge(2, 3)]
    const graph: RouteGraph = { vertexCount: 4, positions, edges: edges.slice(1) }
    const passes = eulerWalk(graph, { edges: [0, 0, 1, 2, 3], start: 1, end: 1 })
    expect(
      visited(graph, passes)
        .slice(1, -1)
        .filter((x) => x === 1),
    ).toEqual([])
  })
})
