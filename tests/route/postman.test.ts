import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lowerBound, type PostmanOptions, type RouteGraph, solvePostman } from '../../src/route/index.ts'
import { assertValidRoute } from './assert-valid-route.ts'
import { readInstances } from './rpp-data.ts'
import { bruteForce, relabel, smallGraph, WALK_ENDS } from './small-graphs.ts'

/** Solves, validates, and gives the total length of the walk when prices are 1. */
function total(graph: RouteGraph, options: PostmanOptions): number {
  const { walk, cost } = solvePostman(graph, options)
  assertValidRoute(graph, { walks: [walk], extra: cost })
  return walk.steps.reduce((sum, step) => sum + graph.edges[step.edge]!.length, 0)
}

const modes = (graph: RouteGraph) => [
  { name: 'closed' as const, options: { closed: true } },
  { name: 'open' as const, options: {} },
  { name: 'fixed' as const, options: { start: 0, end: graph.vertexCount - 1 } },
]

const unitGrid = (rows: number, columns: number): RouteGraph => {
  const at = (r: number, c: number) => r * columns + c
  const edges = []
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      if (c + 1 < columns) edges.push({ u: at(r, c), v: at(r, c + 1), length: 1, required: true, price: 1 })
      if (r + 1 < rows) edges.push({ u: at(r, c), v: at(r + 1, c), length: 1, required: true, price: 1 })
    }
  return { vertexCount: rows * columns, edges }
}

/** Closed rings in a chain; ring i is crossed from at 0 and to at `offsets[i]` round its perimeter. All is required. */
function ringChain(
  perimeters: readonly number[],
  crossings: readonly number[],
  offsets: readonly number[],
): RouteGraph {
  const edges = []
  const vertex = (ring: number, side: 0 | 1) => 2 * ring + side
  for (const [i, perimeter] of perimeters.entries()) {
    const far = offsets[i] ?? perimeter / 2
    edges.push({ u: vertex(i, 0), v: vertex(i, 1), length: far, required: true, price: 1 })
    edges.push({ u: vertex(i, 0), v: vertex(i, 1), length: perimeter - far, required: true, price: 1 })
    if (i + 1 < perimeters.length)
      edges.push({ u: vertex(i, 1), v: vertex(i + 1, 0), length: crossings[i]!, required: true, price: 1 })
  }
  return { vertexCount: 2 * perimeters.length, edges }
}

// Source: optimum.csv (proven optima); the textbook answers are the published ones of the repositories named in
// tests/data/rpp/README.md.
describe('benchmark instances of the rural postman', () => {
  const instances = readInstances()

  it('are all there, with the textbook examples among them', () => {
    expect(instances).toHaveLength(108)
    expect(instances.filter((i) => i.family === 'textbook').map((i) => [i.name, i.closed])).toContainEqual([
      'tb-koenigsberg',
      39,
    ])
  })

  it.each(instances.filter((i) => i.family === 'textbook'))('$name has its published answer', (instance) => {
    for (const { name, options } of modes(instance.graph))
      expect([name, total(instance.graph, options)]).toEqual([name, instance[name]])
  })

  it.each(instances.filter((i) => ['gdb', 'kshs', 'val', 'egl-large'].includes(i.family)))(
    '$name, all in one component, is solved to the optimum and proved',
    (instance) => {
      for (const { name, options } of modes(instance.graph)) {
        expect([name, total(instance.graph, options)]).toEqual([name, instance[name]])
        const { cost, lowerBound: bound } = solvePostman(instance.graph, options)
        expect(bound).toBe(cost)
      }
    },
  )

  it.each(
    instances.filter(
      (i) => ['christofides', 'grid', 'random', 'degree'].includes(i.family) && i.requiredCount <= 20,
    ),
  )('$name, with loose pieces, is solved to within 1 % of its optimum and never below', (instance) => {
    for (const { name, options } of modes(instance.graph)) {
      const best = instance[name]!
      const length = total(instance.graph, { ...options, iterations: 60 })
      expect(length).toBeGreaterThanOrEqual(best)
      expect(length).toBeLessThanOrEqual(1.01 * best)
    }
  })
})

// Source: Edmonds & Johnson 1973 (least pairing of odd points); values computed by exhaustive pairing.
describe('line graphs with known retrace', () => {
  it.each([
    [2, 3, 0, 1],
    [3, 3, 2, 4],
    [3, 4, 2, 5],
    [4, 4, 3, 4],
  ])('a unit grid of %i x %i points is retraced by %i open and %i closed', (rows, columns, open, closed) => {
    const grid = unitGrid(rows, columns)
    expect(solvePostman(grid).cost).toBe(open)
    expect(solvePostman(grid, { closed: true }).cost).toBe(closed)
  })

  it.each([
    [[100, 140, 180, 220], [4, 4, 4], [0, 10, 25], 8, 12],
    [[100, 140, 180], [4, 4], [0, 70], 4, 8],
    [[100, 140, 180, 220], [4, 4, 4], [0, 0, 0], 0, 12],
  ])(
    'rings %j crossed by %j at offsets %j are retraced by %i open and %i closed',
    (perimeters, crossings, offsets, open, closed) => {
      const chain = ringChain(perimeters, crossings, offsets)
      expect(solvePostman(chain).cost).toBe(open)
      expect(solvePostman(chain, { closed: true }).cost).toBe(closed)
    },
  )

  it('a chain of rings obeys the formula: min over s <= t of crossings before s, arcs from s to t, crossings after t', () => {
    const mm = fc.integer({ min: 1, max: 60 })
    fc.assert(
      fc.property(fc.array(fc.record({ crossing: mm, arc: mm }), { minLength: 1, maxLength: 5 }), (steps) => {
        const crossings = steps.map((s) => s.crossing)
        const arcs = steps.slice(1).map((s) => s.arc)
        const chain = ringChain(
          [...crossings, 0].map(() => 200),
          crossings,
          [0, ...arcs],
        )
        const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0)
        const cases = crossings.flatMap((_, s) =>
          crossings
            .slice(s)
            .map(
              (__, k) =>
                sum(crossings.slice(0, s)) + sum(arcs.slice(s, s + k)) + sum(crossings.slice(s + k + 1)),
            ),
        )
        expect(solvePostman(chain).cost).toBe(Math.min(...cases))
        expect(solvePostman(chain, { closed: true }).cost).toBe(sum(crossings))
      }),
      { seed: 4, numRuns: 60 },
    )
  })
})

describe.each(Object.entries(WALK_ENDS))('a walk with ends %s', (_name, endsOf) => {
  it('is as cheap as exhaustive search finds, and not below the bound', () => {
    fc.assert(
      fc.property(smallGraph({ vertices: 6, required: 5, optional: 4 }), (graph) => {
        const ends = endsOf(graph)
        const { walk, cost, lowerBound: proved } = solvePostman(graph, { ...ends, iterations: 60 })
        assertValidRoute(graph, { walks: [walk], extra: cost })
        expect(cost).toBe(bruteForce(graph, ends))
        expect(proved).toBeLessThanOrEqual(cost)
        expect(lowerBound(graph, ends).cost).toBeLessThanOrEqual(cost)
        if (ends.start !== undefined) expect(walk.start).toBe(ends.start)
        if (ends.end !== undefined) expect(walk.end).toBe(ends.end)
        if (ends.closed) expect(walk.end).toBe(walk.start)
      }),
      { seed: 5, numRuns: 60 },
    )
  })
})

describe('the postman', () => {
  it('does not care how vertices are numbered and edges are turned', () => {
    fc.assert(
      fc.property(smallGraph({ vertices: 7, required: 8, optional: 6 }), (graph) => {
        const other = relabel(graph, 3)
        expect(solvePostman(other.graph, { closed: true }).cost).toBe(
          solvePostman(graph, { closed: true }).cost,
        )
        const between = { start: 0, end: 6 }
        const moved = { start: other.vertex(0), end: other.vertex(6) }
        expect(solvePostman(other.graph, moved).cost).toBe(solvePostman(graph, between).cost)
      }),
      { seed: 6, numRuns: 60 },
    )
  })

  it('gives the same walk twice', () => {
    const { graph } = readInstances().find((i) => i.name === 'D11')!
    const options = { closed: true, iterations: 40 }
    expect(solvePostman(graph, options)).toEqual(solvePostman(graph, options))
  })

  it('names the pieces that one walk cannot reach', () => {
    const edge = (u: number, v: number, required: boolean) => ({ u, v, length: 1, required })
    const graph = { vertexCount: 6, edges: [edge(0, 1, true), edge(2, 3, true), edge(3, 4, false)] }
    expect(() => solvePostman(graph)).toThrow(expect.objectContaining({ code: 'route/unreachable' }))
    expect(() => solvePostman(graph)).toThrow('edges 0; edges 1')
    const near = { vertexCount: 4, edges: [edge(0, 1, true)] }
    expect(() => solvePostman(near, { start: 3 })).toThrow(
      expect.objectContaining({ code: 'route/unreachable' }),
    )
  })

  it('refuses vertices, lengths and prices that cannot be', () => {
    const bad = {
      vertexCount: 2,
      edges: [
        { u: 0, v: 2, length: 1, required: true },
        { u: 0, v: 1, length: -1, required: true },
        { u: 0, v: 1, length: 1, required: true, price: Number.NaN },
      ],
    }
    expect(() => solvePostman(bad)).toThrow(/vertex 2 .*\n.*length -1 mm.*\n.*price NaN/)
    expect(() => solvePostman({ vertexCount: 1, edges: [] }, { start: 1 })).toThrow(
      'vertex 1 is not one of 0 to 0',
    )
  })

  it('has nothing to do in a graph with nothing to stitch', () => {
    expect(solvePostman({ vertexCount: 1, edges: [] }).walk.steps).toEqual([])
  })

  it('travels out to the fixed ends even where they lie off every piece', () => {
    // A seam 0-1-2-3 with a single piece hanging on vertex 1; both ends off the piece, and parity is met without it.
    const graph = {
      vertexCount: 5,
      edges: [
        { u: 0, v: 1, length: 1, required: false },
        { u: 1, v: 2, length: 1, required: false },
        { u: 2, v: 3, length: 9, required: false },
        { u: 0, v: 3, length: 2, required: false },
        { u: 1, v: 4, length: 5, required: true, price: 3 },
        { u: 4, v: 2, length: 5, required: true, price: 3 },
      ],
    }
    const { walk, cost } = solvePostman(graph, { start: 0, end: 3 })
    assertValidRoute(graph, { walks: [walk], extra: cost })
    expect(cost).toBe(
      bruteForce({ ...graph, edges: graph.edges.map((e) => ({ price: 1, ...e })) }, { start: 0, end: 3 }),
    )
  })
})
