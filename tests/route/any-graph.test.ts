import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PlanError } from '../../src/error.ts'
import {
  type AreaOptions,
  ROUTE_WEIGHTS,
  type RouteEdge,
  type RouteGraph,
  solveByAreas,
} from '../../src/route/index.ts'
import { assertValidRoute } from './assert-valid-route.ts'

const VERTICES = 12

const edge: fc.Arbitrary<RouteEdge> = fc.record({
  u: fc.nat(VERTICES - 1),
  v: fc.nat(VERTICES - 1),
  length: fc.integer({ min: 0, max: 20 }),
  required: fc.boolean(),
})

/** Graphs of any kind: in separate parts, with loops and parallel edges; dealt into up to four areas, some of them empty. */
const anyCase = fc
  .tuple(
    fc.array(edge, { minLength: 1, maxLength: 22 }),
    fc.array(fc.nat(3), { minLength: 22, maxLength: 22 }),
    fc.record({
      ends: fc.constantFrom('free', 'closed', 'start', 'both'),
      order: fc.constantFrom<'walk' | 'strict'>('walk', 'strict'),
      start: fc.constantFrom(1, ROUTE_WEIGHTS.start),
      reach: fc.boolean(),
    }),
  )
  .map(([edges, dealt, how]) => {
    const graph: RouteGraph = { vertexCount: VERTICES, edges }
    const areas: number[][] = [[], [], [], []]
    edges.forEach((e, i) => {
      if (e.required) areas[dealt[i]!]!.push(i)
    })
    const seams = edges.flatMap((e, i) => (e.required ? [] : [i]))
    const plan = areas.map((required, a) =>
      how.reach ? { required, travel: seams.filter((s) => s % 2 === a % 2) } : required,
    )
    const first = edges.find((e) => e.required)
    const ends =
      how.ends === 'closed'
        ? { closed: true }
        : how.ends === 'free' || !first
          ? {}
          : how.ends === 'start'
            ? { start: first.u }
            : { start: first.u, end: first.v }
    const options: AreaOptions = {
      plans: [plan],
      order: how.order,
      weights: { start: how.start },
      iterations: 10,
      ...ends,
    }
    return { graph, areas, options }
  })

describe('a route over any graph', () => {
  it('is valid, or is refused with a reason', () => {
    let planned = 0
    fc.assert(
      fc.property(anyCase, ({ graph, areas, options }) => {
        try {
          const route = solveByAreas(graph, options)
          assertValidRoute(graph, route, { areas, ...ROUTE_WEIGHTS })
          expect(route.walks.length).toBeGreaterThanOrEqual(route.startsBound)
          planned++
        } catch (error) {
          if (!(error instanceof PlanError)) throw error
          expect(error.code).toBe('route/unreachable')
        }
      }),
      { seed: 12, numRuns: 400 },
    )
    expect(planned).toBeGreaterThan(300)
  })
})
