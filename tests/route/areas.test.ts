import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type AreaOptions,
  lowerBound,
  ROUTE_WEIGHTS,
  type RouteEdge,
  type RouteGraph,
  solveByAreas,
  solvePostman,
} from '../../src/route/index.ts'
import { assertValidRoute } from './assert-valid-route.ts'
import { aroundPlan, bandRange, ringWeave, type Weave } from './ring-weave.ts'
import { bruteForce, smallGraph } from './small-graphs.ts'

const UNIT = { ...ROUTE_WEIGHTS, reposition: 0, travelAgain: 1 }

/** Solves, validates against the plan taken, and checks the figures against each other. */
function plan(graph: RouteGraph, options: AreaOptions) {
  const route = solveByAreas(graph, options)
  const weights = { ...ROUTE_WEIGHTS, ...options.weights }
  const areas = options.plans[route.plan]!.map((area) => ('required' in area ? area.required : area))
  assertValidRoute(graph, route, { areas, ...weights })
  const perArea = route.perArea.reduce((sum, area) => sum + area.extra, 0)
  expect(perArea).toBeCloseTo(route.extra, 6)
  expect(route.cost).toBeCloseTo(
    route.extra + weights.reposition * route.repositions + weights.start * (route.walks.length - 1),
    6,
  )
  expect(route.walks.length).toBeGreaterThanOrEqual(route.startsBound)
  if (route.walks.length === route.startsBound)
    expect(route.extra).toBeGreaterThanOrEqual(route.lowerBound - 1e-6)
  for (const area of route.perArea) expect(area.extra).toBeGreaterThanOrEqual(0)
  return route
}

const around = (weave: Weave, from = 0) => aroundPlan(weave, bandRange(0, weave.bands), from)

describe('rings whose runs go from seam to seam', () => {
  it.each([
    [1, 4, 3],
    [3, 4, 1],
    [3, 6, 3],
    [5, 8, 5],
    [9, 16, 19],
  ])('%i bands, an odd number, with %i stations need no extra stitch', (bands, stations, pieces) => {
    const weave = ringWeave({ bands, stations, pieces })
    const route = plan(weave.graph, { plans: [around(weave)] })
    expect(route.walks).toHaveLength(1)
    expect(route.extra).toBe(0)
    expect(route.lowerBound).toBe(0)
    expect(route.repositions).toBe(stations - 1)
  })

  it('are stitched like mowing: each run in one go, neighbouring bands in opposite directions', () => {
    const weave = ringWeave({ bands: 5, stations: 8, pieces: 7 })
    const { walks } = plan(weave.graph, { plans: [around(weave)] })
    const steps = walks[0]!.steps.map((s) => ({ ...s, strand: weave.graph.edges[s.edge]!.strand }))
    const runs = steps.filter((s, i) => s.strand !== steps[i - 1]?.strand || s.area !== steps[i - 1]?.area)
    expect(runs).toHaveLength(5 * 8)
    runs.slice(1).forEach((run, i) => {
      if (run.area === runs[i]!.area) expect(run.forward).toBe(!runs[i]!.forward)
    })
    expect(runs.slice(0, 10).map((run) => run.strand)).toEqual([0, 1, 2, 3, 4, 4, 3, 2, 1, 0])
  })

  it('are walked by a closed line, and from a given corner, with no extra stitch either', () => {
    const weave = ringWeave({ bands: 5, stations: 8, pieces: 5 })
    expect(plan(weave.graph, { plans: [around(weave)], closed: true }).extra).toBe(0)
    const start = weave.touch(0, 0)
    const route = plan(weave.graph, { plans: [around(weave)], start })
    expect([route.extra, route.walks[0]!.start]).toEqual([0, start])
  })

  it('of an even number need none when split into two odd groups, worked round one after the other', () => {
    const weave = ringWeave({ bands: 8, stations: 8, pieces: 3 })
    const whole = around(weave)
    const split = (from: number) => [
      ...aroundPlan(weave, bandRange(0, 3), from),
      ...aroundPlan(weave, bandRange(3, 8), from),
    ]
    const weights = { ...ROUTE_WEIGHTS, reposition: 1 }
    expect(plan(weave.graph, { plans: [whole], weights }).extra).toBeGreaterThan(0)
    const route = plan(weave.graph, { plans: [whole, split(0), split(1)], weights })
    expect([route.plan, route.extra, route.walks.length]).toEqual([2, 0, 1])
  })

  it('lapped band by band cost more travel than the weave but are still one line', () => {
    const weave = ringWeave({ bands: 5, stations: 8, pieces: 3 })
    const laps = bandRange(0, 5).map((band) => bandRange(0, 8).flatMap((j) => weave.stretch(band, j)))
    const route = plan(weave.graph, { plans: [laps] })
    expect(route.walks).toHaveLength(1)
    expect(route.perArea.map((a) => a.parityBound)).toEqual([0, 0, 0, 0, 0])
  })

  it('as a single area are one closed lap', () => {
    const weave = ringWeave({ bands: 1, stations: 4, pieces: 3 })
    const route = plan(weave.graph, {
      plans: [[weave.graph.edges.flatMap((e, i) => (e.required ? [i] : []))]],
      closed: true,
    })
    expect(route.extra).toBe(0)
    expect(route.walks[0]!.start).toBe(route.walks[0]!.end)
  })

  it('that all start on their inner seam are joined by travel, never by a second start', () => {
    const weave = ringWeave({ bands: 4, stations: 6, pieces: 4, inStep: true })
    const route = plan(weave.graph, { plans: [around(weave)], iterations: 40 })
    expect(route.walks).toHaveLength(1)
    expect(route.travelMm).toBeGreaterThan(0)
    expect(route.overlapMm).toBe(0)
  })

  it('are planned the same whatever the vertices are called', () => {
    const weave = ringWeave({ bands: 4, stations: 6, pieces: 3 })
    const n = weave.graph.vertexCount
    const turned = weave.graph.edges.map((e) => ({ ...e, u: (e.v + 5) % n, v: (e.u + 5) % n }))
    const other = { vertexCount: n, edges: turned }
    expect(plan(other, { plans: [around(weave)] }).extra).toBeCloseTo(
      plan(weave.graph, { plans: [around(weave)] }).extra,
      6,
    )
  })
})

describe('areas of any shape', () => {
  /** The required edges of a graph dealt into areas of three. */
  const dealt = (graph: RouteGraph): number[][] => {
    const required = graph.edges.flatMap((e, i) => (e.required ? [i] : []))
    return [required.slice(0, 3), required.slice(3, 6), required.slice(6)]
  }

  it('cost what exhaustive search in the same order finds, all but a rare few, and all where one area is all', () => {
    const shape = { vertices: 6, required: 7, optional: 4 }
    let equal = 0
    fc.assert(
      fc.property(smallGraph(shape), (graph) => {
        const areas = dealt(graph)
        const route = plan(graph, { plans: [areas], weights: UNIT, iterations: 40 })
        const least = bruteForce(graph, {}, areas)
        expect(route.extra).toBeGreaterThanOrEqual(least - 1e-9)
        if (Math.abs(route.extra - least) < 1e-9) equal++
        const whole = plan(graph, { plans: [[areas.flat()]], weights: UNIT, iterations: 40 })
        expect(whole.extra).toBeCloseTo(bruteForce(graph, {}), 9)
      }),
      { seed: 7, numRuns: 80 },
    )
    expect(equal).toBeGreaterThanOrEqual(78)
  })

  it('keep to the start and the end that are asked for', () => {
    fc.assert(
      fc.property(smallGraph({ vertices: 6, required: 7, optional: 4 }), (graph) => {
        const route = plan(graph, { plans: [dealt(graph)], start: 2, end: 5, iterations: 20 })
        expect([route.walks[0]!.start, route.walks.at(-1)!.end]).toEqual([2, 5])
        const lap = plan(graph, { plans: [dealt(graph)], closed: true, iterations: 20 })
        expect(lap.walks[0]!.start).toBe(lap.walks[0]!.end)
      }),
      { seed: 8, numRuns: 60 },
    )
  })

  it('cost as much as the free postman if the order does not matter', () => {
    const weave = ringWeave({ bands: 3, stations: 4, pieces: 3 })
    const all = weave.graph.edges.flatMap((e, i) => (e.required ? [i] : []))
    expect(plan(weave.graph, { plans: [[all]] }).extra).toBe(solvePostman(weave.graph).cost)
  })

  it('may be empty, and an area may pass again what was stitched before if there is no other way', () => {
    const edge = (u: number, v: number): RouteEdge => ({ u, v, length: 10, required: true })
    // A trunk 0-1 with branches 0-2 and 1-3: the branches are one area, reached only over the trunk.
    const graph = { vertexCount: 4, edges: [edge(0, 1), edge(0, 2), edge(1, 3)] }
    const route = plan(graph, { plans: [[[0], [], [1, 2]]] })
    expect(route.walks).toHaveLength(1)
    // 0-1 | 1-3, back, over the trunk, 0-2: branch and trunk are passed twice.
    expect(route.overlapMm).toBe(20)
  })
})

describe('what one walk cannot reach', () => {
  const edge = (u: number, v: number, required = true): RouteEdge => ({ u, v, length: 10, required })

  it('becomes a walk of its own, counted, priced and proved', () => {
    const graph = { vertexCount: 6, edges: [edge(0, 1), edge(1, 2), edge(3, 4), edge(4, 5)] }
    const route = plan(graph, {
      plans: [
        [
          [0, 2],
          [1, 3],
        ],
      ],
    })
    expect([route.walks.length, route.startsBound, route.extra]).toEqual([2, 2, 0])
    expect(lowerBound(graph)).toEqual({ cost: 0, starts: 2 })
    expect(route.walks.map((w) => w.steps.map((s) => s.edge))).toEqual([
      [0, 1],
      [2, 3],
    ])
  })

  it('is started anew in every area when the order is strict, as on a frame', () => {
    const graph = { vertexCount: 6, edges: [edge(0, 1), edge(1, 2), edge(3, 4), edge(4, 5)] }
    const route = plan(graph, {
      plans: [
        [
          [0, 2],
          [1, 3],
        ],
      ],
      order: 'strict',
    })
    expect(route.walks.flatMap((w) => w.steps.map((s) => s.area))).toEqual([0, 0, 1, 1])
    // The last piece of the first strip goes on into the second; the other is a start of its own each time.
    expect(route.walks).toHaveLength(3)
  })

  it('is also what lies beyond the seams within reach of an area', () => {
    const graph = { vertexCount: 4, edges: [edge(0, 1), edge(2, 3), edge(1, 2, false)] }
    const within = plan(graph, { plans: [[{ required: [0, 1], travel: [2] }]], order: 'strict' })
    const without = plan(graph, { plans: [[{ required: [0, 1], travel: [] }]], order: 'strict' })
    expect([within.walks.length, within.travelMm]).toEqual([1, 10])
    expect([without.walks.length, without.travelMm]).toEqual([2, 0])
  })

  it('is the price of a start, if that is set below the travel', () => {
    const graph = { vertexCount: 4, edges: [edge(0, 1), edge(2, 3), edge(1, 2, false)] }
    expect(plan(graph, { plans: [[[0], [1]]] }).walks).toHaveLength(1)
    expect(plan(graph, { plans: [[[0], [1]]], weights: { start: 1 } }).walks).toHaveLength(2)
  })

  it('refuses ends that no route can have, and plans that do not hold every piece once', () => {
    const graph = { vertexCount: 4, edges: [edge(0, 1), edge(1, 2)] }
    const code = (options: AreaOptions) => {
      try {
        solveByAreas(graph, options)
      } catch (error) {
        return (error as { code: string }).code
      }
      return 'none'
    }
    expect(code({ plans: [] })).toBe('route/no-plan')
    expect(code({ plans: [[[0, 1]]], weights: { travelAgain: 0.5 } })).toBe('route/bad-weight')
    expect(code({ plans: [[[0]]] })).toBe('route/area-cover')
    expect(code({ plans: [[[0, 1], [1]]] })).toBe('route/area-cover')
    expect(code({ plans: [[[0, 1, 7]]] })).toBe('route/not-required')
    expect(code({ plans: [[[0, 1]]], start: 3 })).toBe('route/unreachable')
    expect(code({ plans: [[[0, 1]]], start: 9 })).toBe('route/unknown-vertex')
  })
})

describe('seams', () => {
  const edge = (u: number, v: number, required: boolean, length = 10): RouteEdge => ({
    u,
    v,
    length,
    required,
  })

  it('cost more the second time, so that another way is taken', () => {
    // Two pieces at each end of a pair of parallel seams, 10 and 15 mm: worked left, right, left, right.
    const graph = {
      vertexCount: 6,
      edges: [
        edge(0, 1, false),
        edge(0, 1, false, 15),
        edge(0, 2, true),
        edge(2, 0, true),
        edge(1, 3, true),
        edge(3, 1, true),
        edge(0, 4, true),
        edge(4, 0, true),
        edge(1, 5, true),
        edge(5, 1, true),
      ],
    }
    const plans = [
      [
        [2, 3],
        [4, 5],
        [6, 7],
        [8, 9],
      ],
    ]
    const seamsUsed = (travelAgain: number) =>
      plan(graph, { plans, weights: { travelAgain } }).walks[0]!.steps.flatMap((s) =>
        graph.edges[s.edge]!.required ? [] : [s.edge],
      )
    expect(seamsUsed(1)).toEqual([0, 0, 0])
    expect(seamsUsed(2)).toEqual([0, 1, 0])
  })

  it('of no length are still seams', () => {
    const graph = { vertexCount: 4, edges: [edge(0, 1, true), edge(1, 2, false, 0), edge(2, 3, true)] }
    const route = plan(graph, { plans: [[[0], [2]]] })
    expect([route.walks.length, route.extra]).toEqual([1, 0])
  })
})
