import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { pointAt } from '../../src/geometry/segment.ts'
import { eachSegment, flattenStroke, StrokeBuilder } from '../../src/geometry/stroke.ts'
import { warpStroke } from '../../src/geometry/warp.ts'
import { cornerWarp, fanLength, fanWarp, type Stretch } from '../../src/motif/bend.ts'
import { strayOf } from '../support/stroke-laws.ts'

const stretch: Stretch = { width: 50, start: { inner: 0, outer: 5 }, end: { inner: 200, outer: 250 } }
const curve = new StrokeBuilder([0, 0])
  .cubicTo([40, 50], [60, 50], [100, 0])
  .arcTo([160, 30], 12)
  .lineTo([fanLength(stretch), 50])
  .build()

describe.each([
  ['a fan', fanWarp(stretch)],
  ['a corner', cornerWarp(stretch, fanLength(stretch))],
])('%s', (_, warp) => {
  it('bends a stroke to within 0.02 mm of the exact image', () => {
    const image = flattenStroke(warpStroke(curve, warp).stroke, 0.002)
    const exact: Point[] = []
    eachSegment(curve, (from, segment) => {
      for (let i = 0; i <= 2000; i++) exact.push(warp(pointAt(from, segment, i / 2000)).to)
    })
    expect(strayOf(image, exact)).toBeLessThan(0.02)
  })

  it('has the derivatives it says', () => {
    const h = 1e-5
    for (const [u, v] of [
      [10, 5],
      [120, 40],
      [190, 25],
      [220, 49],
    ] as Point[]) {
      const at = warp([u, v])
      const du = warp([u + h, v]).to.map((x, i) => (x - at.to[i]!) / h)
      const dv = warp([u, v + h]).to.map((x, i) => (x - at.to[i]!) / h)
      du.forEach((x, i) => expect(x).toBeCloseTo(at.du[i]!, 3))
      dv.forEach((x, i) => expect(x).toBeCloseTo(at.dv[i]!, 3))
    }
  })

  it('brings the end of the rectangle onto the mitre', () => {
    const length = fanLength(stretch)
    expect(warp([length, 0]).to[0]).toBeCloseTo(200, 9)
    expect(warp([length, 50]).to[0]).toBeCloseTo(250, 9)
    expect(warp([length, 25]).to[0]).toBeCloseTo(225, 9)
  })

  it('never folds', () => {
    for (let u = 0; u <= fanLength(stretch); u += 1)
      for (const v of [0, 25, 50]) expect(warp([u, v]).du[0]).toBeGreaterThan(0)
  })
})

it('says which segments of the image belong to which of the original', () => {
  const { stroke, ends } = warpStroke(curve, fanWarp(stretch))
  expect(ends).toHaveLength(curve.segments.length)
  expect(ends.at(-1)).toBe(stroke.segments.length)
})
