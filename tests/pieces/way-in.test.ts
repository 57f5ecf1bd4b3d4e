import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { distance } from '../../src/geometry/point.ts'
import { endOf } from '../../src/geometry/stroke.ts'
import { planLine } from '../../src/pieces/plan-line.ts'
import { withWayIn, withWayOut } from '../../src/pieces/way-in.ts'
import { fillQuilt, lineTaskOf } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import type { RouteEdge, RouteGraph } from '../../src/route/index.ts'

const CATALOG = catalogOf(LIBRARY)

const fill = (u: number, v: number): RouteEdge => ({ u, v, length: 10, required: true, strand: 0 })
const asked = (u: number, v: number): RouteEdge => ({ u, v, length: 10, required: true })
const seam = (u: number, v: number): RouteEdge => ({ u, v, length: 10, required: false })
const graphOf = (edges: RouteEdge[]): RouteGraph => ({
  vertexCount: 1 + Math.max(...edges.flatMap(({ u, v }) => [u, v])),
  edges,
})

describe('the way from the start to the first area', () => {
  // A row of four places: the first area is edge 0, at its left end.
  const row = (first: RouteEdge, second: RouteEdge) => graphOf([fill(0, 1), first, second, fill(3, 4)])

  it('is left as it is where the start lies in the first area', () => {
    const order = [[0], [1, 2], [3]]
    expect(withWayIn([order], row(asked(1, 2), asked(2, 3)), 1)).toEqual([order])
    expect(withWayIn([order], row(asked(1, 2), asked(2, 3)), 1)[0]).toBe(order)
  })

  it('is left as it is where a seam that is free to travel leads there', () => {
    const order = [[0], [3]]
    expect(withWayIn([order], row(seam(1, 2), seam(2, 3)), 3)[0]).toBe(order)
  })

  it('is stitched with the first area where all seams on it are asked for', () => {
    const orders = withWayIn([[[0], [2, 3], [1]]], row(asked(1, 2), asked(2, 3)), 3)
    expect(orders).toEqual([[{ required: [0, 2, 1] }, { required: [3] }]])
  })

  it('takes of a way only what must be stitched', () => {
    const orders = withWayIn([[[0], [2, 3]]], row(seam(1, 2), asked(2, 3)), 3)
    expect(orders).toEqual([[{ required: [0, 2] }, { required: [3] }]])
  })

  it('leads over seams rather than through fillers, even where that has more stretches', () => {
    const graph = graphOf([fill(0, 1), fill(1, 2), asked(1, 3), asked(3, 2)])
    expect(withWayIn([[[0], [1, 2, 3]]], graph, 2)).toEqual([[{ required: [0, 3, 2] }, { required: [1] }]])
  })

  it('leads through a filler where nothing else does', () => {
    const graph = graphOf([fill(0, 1), fill(1, 2)])
    expect(withWayIn([[[0], [1]]], graph, 2)).toEqual([[{ required: [0, 1] }]])
  })

  it('keeps to the seams that an area may travel', () => {
    const graph = graphOf([fill(0, 1), seam(1, 2), asked(1, 3), asked(3, 2), fill(2, 4)])
    const order = [{ required: [0], travel: [1] }, { required: [2, 3, 4] }]
    expect(withWayIn([order], graph, 2)[0]).toBe(order)
    const narrow = [{ required: [0], travel: [] }, { required: [2, 3, 4] }]
    expect(withWayIn([narrow], graph, 2)).toEqual([[{ required: [0], travel: [1] }, narrow[1]]])
  })

  it('changes nothing where no way leads there at all, nor where nothing is stitched', () => {
    const graph = graphOf([fill(0, 1), fill(2, 3)])
    expect(withWayIn([[[0], [1]], []], graph, 3)).toEqual([[[0], [1]], []])
  })
})

describe('the way from the last area to the end', () => {
  it('may be stitched with the last area where all seams on it are asked for', () => {
    const graph = graphOf([fill(0, 1), asked(1, 2), asked(2, 3), fill(3, 4)])
    const order = [[0, 1, 2], [3]]
    expect(withWayOut([order], graph, 1)).toEqual([order, [{ required: [0] }, { required: [3, 1, 2] }]])
    expect(withWayOut([order], graph, 0)).toEqual([order, [{ required: [3, 0, 1, 2] }]])
  })

  it('is left as it is where the end lies in the last area, or seams lead there', () => {
    const order = [[0], [3]]
    expect(withWayOut([order], graphOf([fill(0, 1), seam(1, 2), seam(2, 3), fill(3, 4)]), 1)).toEqual([order])
    expect(withWayOut([order], graphOf([fill(0, 1), asked(1, 2), asked(2, 3), fill(3, 4)]), 4)).toEqual([
      order,
    ])
  })
})

describe('laps whose start was cut off from the first of them by seams that are asked for', () => {
  const bands = ['bracket', 'loop-line', 'scallop', 'bracket', 'ribbon'].map((filler, i) => ({
    name: `b${i}`,
    width: 1.5,
    filler,
  }))
  const lapsFrom = (start: object, end?: object) => {
    const route = { work: 'laps', ditch: 'all', start, ...(end && { end }) }
    const text = JSON.stringify({ centre: { width: 6, height: 7 }, bands, route })
    const task = lineTaskOf(fillQuilt(readPlan(text, CATALOG).plan, CATALOG))
    return { ...planLine(task), quilt: task.quilt }
  }

  it.each([2])('are one line from the side of band %i on', (band) => {
    const { lines, quilt } = lapsFrom({ band: `b${band}`, side: 'right' }, { band: 'b0', side: 'left' })
    expect(lines).toHaveLength(1)
    const { innerA, innerB, outerA, outerB } = quilt.bands[band]!.sides[1]!
    const from = lines[0]!.parts[0]!.stroke.start
    const away = [
      [innerA, innerB],
      [outerA, outerB],
    ].map(([a, b]) => distance(from, [(a![0] + b![0]) / 2, (a![1] + b![1]) / 2]))
    expect(Math.min(...away)).toBeLessThan(30)
  })

  it('end where they are asked to on a quilt so large that no area goes back over another', () => {
    const many = [...bands, ...bands].map((band, i) => ({ ...band, name: `b${i}`, width: 1 }))
    const text = JSON.stringify({
      centre: { width: 20, height: 20 },
      bands: many,
      route: { work: 'laps', ditch: 'all', end: { band: 'b1', side: 'left' } },
    })
    const task = lineTaskOf(fillQuilt(readPlan(text, CATALOG).plan, CATALOG))
    const { lines, graph, net } = planLine(task)
    expect(graph.edges.length).toBeGreaterThan(2000)
    expect(lines).toHaveLength(1)
    const { innerA, innerB } = task.quilt.bands[1]!.sides[3]!
    const to = endOf(lines[0]!.parts.at(-1)!.stroke)
    expect(distance(to, [(innerA[0] + innerB[0]) / 2, (innerA[1] + innerB[1]) / 2])).toBeLessThan(60)
    expect(net.positions.length).toBe(graph.vertexCount)
  })
})
