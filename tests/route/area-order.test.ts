import { describe, expect, it } from 'vitest'
import { asArea, planProblems } from '../../src/route/area-order.ts'
import type { RouteGraph } from '../../src/route/graph.ts'

const edge = (required: boolean) => ({ u: 0, v: 1, length: 5, required })

describe('a plan of areas', () => {
  const two: RouteGraph = { vertexCount: 2, edges: [edge(true), edge(true), edge(false)] }
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
