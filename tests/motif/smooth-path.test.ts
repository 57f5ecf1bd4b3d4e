import { describe, expect, it } from 'vitest'
import { distance, type Point } from '../../src/geometry/point.ts'
import { directionAt, pointAt } from '../../src/geometry/segment.ts'
import { endOf } from '../../src/geometry/stroke.ts'
import { smoothPath } from '../../src/motif/smooth-path.ts'
import { sharpestJoint } from './sharpest-joint.ts'

describe('a smooth path', () => {
  const points: Point[] = [
    [0, 0],
    [6, 6],
    [12, 0],
    [18, 6],
    [24, 0],
  ]
  const first = { at: [-3, 0] as Point, along: [1, 0] as Point }
  const last = { at: [30, 0] as Point, along: [1, 0] as Point }
  const drawn = () => smoothPath(points, first, last)

  it('leads from the first heading to the last, with no corner', () => {
    const path = drawn()
    expect(path.start).toEqual([-3, 0])
    expect(endOf(path)).toEqual([30, 0])
    expect(path.segments).toHaveLength(4)
    expect(sharpestJoint(path)).toBeLessThan(1e-6)
    expect(directionAt(path.start, path.segments[0]!, 0)).toEqual([1, 0])
    expect(directionAt([0, 0], path.segments.at(-1)!, 1)[1]).toBeCloseTo(0, 12)
  })

  // A uniform cubic B-spline passes (a + 4b + c) / 6 over its control point b (de Boor).
  it('passes a sixth, four sixths and a sixth of each three points', () => {
    const path = drawn()
    expect(path.segments.slice(0, 3).map(({ to }) => to)).toEqual([
      [6, 4],
      [12, 2],
      [18, 4],
    ])
    expect(pointAt([6, 4], path.segments[1]!, 0.5)).toEqual([9, 3])
  })

  it('bends as much before a knot as after it', () => {
    const path = drawn()
    const bend = (from: Point, i: number, t: number): number => {
      const at = (s: number) => pointAt(from, path.segments[i]!, s)
      const h = 1e-3
      const [a, b, c] = [at(t - h), at(t), at(t + h)]
      return distance([a[0] + c[0], a[1] + c[1]], [2 * b[0], 2 * b[1]]) / h ** 2
    }
    expect(bend([6, 4], 1, 1)).toBeCloseTo(bend([12, 2], 2, 0), 3)
  })
})
