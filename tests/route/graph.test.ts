import { describe, expect, it } from 'vitest'
import { checkGraph, checkVertex, priceOf, type RouteEdge, type RouteGraph } from '../../src/route/graph.ts'
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
