import { describe, expect, it } from 'vitest'
import { asArea, planProblems } from '../../src/route/area-order.ts'
import { checkGraph, checkVertex, priceOf, type RouteEdge, type RouteGraph } from '../../src/route/graph.ts'
import { seededRandom } from '../../src/route/random.ts'
import { completeWeights, ROUTE_WEIGHTS } from '../../src/route/weights.ts'
import { refusalsOf } from '../support/refusals.ts'

const edge = (more: Partial<RouteEdge> = {}): RouteEdge => ({
  u: 0,
  v: 1,
  length: 5,
  required: true,
  ...more,
})
const graph = (...edges: RouteEdge[]): RouteGraph => ({ vertexCount: 3, edges })
const refused = (...edges: RouteEdge[]) => refusalsOf(() => checkGraph(graph(...edges)))

describe('a graph that can be planned', () => {
  it('may have loops, edges of no length and prices of nothing', () => {
    expect(refused(edge(), edge({ u: 2, v: 2, length: 0, price: 0 }))).toEqual([])
    expect(refused()).toEqual([])
  })

  it.each([
    [{ u: 3 }, 'route/unknown-vertex edges[1]: vertex 3 is not one of 0 to 2'],
    [{ v: -1 }, 'route/unknown-vertex edges[1]: vertex -1 is not one of 0 to 2'],
    [{ v: 1.5 }, 'route/unknown-vertex edges[1]: vertex 1.5 is not one of 0 to 2'],
    [{ length: -0.1 }, 'route/bad-length edges[1]: length -0.1 mm; must be 0 or more'],
    [{ length: Number.NaN }, 'route/bad-length edges[1]: length NaN mm; must be 0 or more'],
    [
      { length: Number.POSITIVE_INFINITY },
      'route/bad-length edges[1]: length Infinity mm; must be 0 or more',
    ],
    [{ price: -2 }, 'route/bad-price edges[1]: price -2 per mm; must be 0 or more'],
    [
      { price: Number.POSITIVE_INFINITY },
      'route/bad-price edges[1]: price Infinity per mm; must be 0 or more',
    ],
  ])('has no edge with %j', (more, refusal) => {
    expect(refused(edge(), edge(more))).toEqual([refusal])
  })

  it('is refused for every edge that is wrong', () => {
    expect(refused(edge({ u: 9 }), edge(), edge({ length: -1 }))).toHaveLength(2)
  })

  it('has the vertex that is asked for', () => {
    const check = (v: number | undefined) => refusalsOf(() => checkVertex(v, 'start', graph()))
    expect([check(undefined), check(0), check(2)]).toEqual([[], [], []])
    expect(check(3)).toEqual(['route/unknown-vertex start: vertex 3 is not one of 0 to 2'])
    expect(check(-1)).toHaveLength(1)
  })
})

it('an extra pass costs the edge’s own price, or that of its kind', () => {
  const prices = { travel: 3, overlap: 7 }
  expect(priceOf(edge({ price: 0 }), prices)).toBe(0)
  expect(priceOf(edge(), prices)).toBe(7)
  expect(priceOf(edge({ required: false }), prices)).toBe(3)
})

describe('a plan of areas', () => {
  const two = graph(edge(), edge(), edge({ required: false }))
  const told = (plan: Parameters<typeof planProblems>[1]) =>
    planProblems(two, plan, 'plans[4]').map(({ code, at, message }) => `${code} ${at}: ${message}`)

  it('holds every required edge once', () => {
    expect(told([[0], [1]])).toEqual([])
    expect(told([{ required: [1, 0], travel: [2] }])).toEqual([])
    expect(asArea([0])).toEqual({ required: [0] })
    expect(asArea({ required: [0], travel: [2] })).toEqual({ required: [0], travel: [2] })
  })

  it('is told each edge that is missing, doubled, or needs no stitching', () => {
    expect(told([[0], [0]])).toEqual([
      'route/area-cover plans[4]: edge 0 lies in 2 areas; must lie in one',
      'route/area-cover plans[4]: edge 1 lies in 0 areas; must lie in one',
    ])
    expect(
      told([
        [0, 1],
        [2, 9],
      ]),
    ).toEqual([
      'route/not-required plans[4][1]: edge 2 is not a required edge',
      'route/not-required plans[4][1]: edge 9 is not a required edge',
    ])
  })
})

describe('weights', () => {
  it('are filled in, and those that are given kept', () => {
    expect(completeWeights()).toEqual(ROUTE_WEIGHTS)
    expect(completeWeights({ overlap: 0, travelAgain: 1 })).toEqual({
      ...ROUTE_WEIGHTS,
      overlap: 0,
      travelAgain: 1,
    })
  })

  it('are refused below what they may be', () => {
    const refusals = refusalsOf(() =>
      completeWeights({
        start: -1,
        overlap: Number.NaN,
        reposition: Number.POSITIVE_INFINITY,
        travelAgain: 0.9,
        travel: -0.1,
      }),
    )
    expect(refusals).toEqual([
      'route/bad-weight weights.start: weight -1; must be 0 or more',
      'route/bad-weight weights.overlap: weight NaN; must be 0 or more',
      'route/bad-weight weights.reposition: weight Infinity; must be 0 or more',
      'route/bad-weight weights.travelAgain: weight 0.9; must be 1 or more',
      'route/bad-weight weights.travel: weight -0.1; must be 0 or more',
    ])
  })
})

describe('seeded numbers', () => {
  it('are the same for a seed on every machine, and spread over 0 to 1', () => {
    const draw = (seed: number, count: number) => {
      const next = seededRandom(seed)
      return Array.from({ length: count }, next)
    }
    expect(draw(1, 5)).toEqual(draw(1, 5))
    expect(draw(1, 5)).not.toEqual(draw(2, 5))
    // Pinned from a run: the same bytes for the same plan rest on it.
    expect(draw(1, 3)).toEqual([0.6270739405881613, 0.002735721180215478, 0.5274470399599522])
    const many = draw(7, 4000)
    expect(Math.min(...many)).toBeGreaterThanOrEqual(0)
    expect(Math.max(...many)).toBeLessThan(1)
    for (let tenth = 0; tenth < 10; tenth++)
      expect(Math.abs(many.filter((x) => Math.floor(10 * x) === tenth).length - 400)).toBeLessThan(80)
  })
})
