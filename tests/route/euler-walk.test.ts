import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { type RouteGraph, solvePostman } from '../../src/route/index.ts'
import { ringWeave } from './ring-weave.ts'

const edgesOf = (graph: RouteGraph): number[] => solvePostman(graph).walk.steps.map((s) => s.edge)

describe('the walk', () => {
  it('goes straight on where lines cross', () => {
    // Two lines that cross at vertex 0 and are joined at one end: 1-0-2, 2-3, 3-0-4.
    const positions: Point[] = [
      [0, 0],
      [-10, 0],
      [10, 0],
      [0, 10],
      [0, -10],
    ]
    const edge = (u: number, v: number) => ({ u, v, length: 10, required: true })
    const graph = {
      vertexCount: 5,
      positions,
      edges: [edge(0, 1), edge(0, 4), edge(2, 0), edge(3, 0), edge(2, 3)],
    }
    const walk = edgesOf(graph)
    expect([walk, [...walk].reverse()]).toContainEqual([0, 2, 4, 3, 1])
  })

  it('takes given directions before positions', () => {
    // The same cross, but the edges leave the crossing bent: 1 goes on to 3, and 2 to 4.
    const positions: Point[] = [
      [0, 0],
      [-10, 0],
      [10, 0],
      [0, 10],
      [0, -10],
    ]
    const edge = (u: number, v: number, directionU: Point) => ({
      u,
      v,
      length: 10,
      required: true,
      directionU,
    })
    const graph: RouteGraph = {
      vertexCount: 5,
      positions,
      edges: [
        edge(0, 1, [-1, 0]),
        edge(0, 3, [1, 0]),
        edge(0, 2, [0, 1]),
        edge(0, 4, [0, -1]),
        { u: 3, v: 2, length: 10, required: true },
      ],
    }
    const walk = edgesOf(graph)
    expect([walk, [...walk].reverse()]).toContainEqual([0, 1, 4, 2, 3])
  })

  it('does not turn back on an edge while there is another way', () => {
    // Two loops at the ends of a bar that has to be passed twice.
    const edge = (u: number, v: number) => ({ u, v, length: 10, required: true, price: 1 })
    const graph = {
      vertexCount: 6,
      edges: [edge(0, 1), edge(1, 2), edge(2, 0), edge(0, 3), edge(3, 4), edge(4, 5), edge(5, 3)],
    }
    const { steps } = solvePostman(graph, { closed: true }).walk
    const turned = steps.filter((s, i) => i > 0 && steps[i - 1]!.edge === s.edge)
    expect(steps).toHaveLength(8)
    expect(turned).toEqual([])
  })

  it('turns less than half as sharply in a weave as a walk with no regard to direction', () => {
    const weave = ringWeave({ bands: 3, stations: 6, pieces: 3 })
    const { positions, ...blind } = weave.graph
    const turning = (steps: readonly { edge: number; forward: boolean }[]) =>
      steps.reduce((sum, step, i) => {
        const before = steps[i - 1]
        if (!before) return sum
        const along = ({ edge, forward }: { edge: number; forward: boolean }) => {
          const { u, v } = weave.graph.edges[edge]!
          const [a, b] = [positions![forward ? u : v]!, positions![forward ? v : u]!]
          return Math.atan2(b[1] - a[1], b[0] - a[0])
        }
        const angle = Math.abs(along(step) - along(before)) % (2 * Math.PI)
        return sum + Math.min(angle, 2 * Math.PI - angle)
      }, 0)
    const seen = turning(solvePostman(weave.graph).walk.steps)
    expect(seen).toBeLessThanOrEqual(turning(solvePostman(blind).walk.steps) + 1e-9)
  })

  it('passes loops and parallel edges like any other', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(2), fc.nat(2)), { minLength: 1, maxLength: 9 }), (pairs) => {
        const edges = pairs.map(([u, v]) => ({ u, v, length: 1, required: true, price: 1 }))
        const spine = [0, 1].map((u) => ({ u, v: u + 1, length: 1, required: false, price: 1 }))
        const graph = { vertexCount: 3, edges: [...edges, ...spine] }
        const { walk } = solvePostman(graph)
        expect(new Set(walk.steps.map((s) => s.edge)).size).toBeGreaterThanOrEqual(edges.length)
      }),
      { seed: 9, numRuns: 100 },
    )
  })
})
