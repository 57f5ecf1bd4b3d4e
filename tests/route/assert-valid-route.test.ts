import { describe, expect, it } from 'vitest'
import type { RouteGraph, Walk } from '../../src/route/index.ts'
import { assertValidRoute } from './assert-valid-route.ts'

const graph: RouteGraph = {
  vertexCount: 4,
  edges: [
    { u: 0, v: 1, length: 10, required: true },
    { u: 1, v: 2, length: 5, required: false },
    { u: 2, v: 3, length: 10, required: true },
  ],
}
const good: Walk = {
  start: 0,
  end: 3,
  steps: [
    { edge: 0, forward: true, area: 0 },
    { edge: 1, forward: true, area: 1 },
    { edge: 2, forward: true, area: 1 },
  ],
}
const areas = [[0], [2]]
const check =
  (walk: Walk, extra = 5) =>
  () =>
    assertValidRoute(graph, { walks: [walk], extra }, { areas })
const changed = (i: number, change: object): Walk => ({
  ...good,
  steps: good.steps.map((s, k) => (k === i ? { ...s, ...change } : s)),
})

describe('the validator of routes', () => {
  it('passes a good one', () => expect(check(good)).not.toThrow())
  it('fails a step that does not begin where the line is', () =>
    expect(check(changed(1, { forward: false }))).toThrow('step 1'))
  it('fails an edge that does not exist', () => expect(check(changed(2, { edge: 9 }))).toThrow('edge 9'))
  it('fails a wrong end', () => expect(check({ ...good, end: 2 })).toThrow('ends at 3'))
  it('fails a wrong price', () => expect(check(good, 4)).toThrow('cost 5'))
  it('fails a piece that is not stitched', () =>
    expect(check({ ...good, end: 2, steps: good.steps.slice(0, 2) })).toThrow('edge 2 is not stitched'))
  it('fails areas out of order', () => expect(check(changed(0, { area: 1 }))).toThrow('edge 0 of area 0'))
  it('fails a return to an earlier area', () =>
    expect(check(changed(2, { area: 0 }))).toThrow('after area 1'))
})
