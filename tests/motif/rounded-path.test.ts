import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { roundedPath } from '../../src/motif/rounded-path.ts'
import { sharpestJoint } from './sharpest-joint.ts'

describe('a path with rounded corners', () => {
  const square: Point[] = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ]

  it('has an arc at each corner and straight pieces between, smoothly joined', () => {
    const path = roundedPath(square, 2)
    expect(path.segments.map(({ kind }) => kind)).toEqual(['line', 'arc', 'line', 'arc', 'line'])
    expect(sharpestJoint(path)).toBeLessThan(1e-6)
    expect(path.segments.map(({ to }) => to.map((x) => Number(x.toFixed(9))))).toEqual([
      [8, 0],
      [10, 2],
      [10, 8],
      [8, 10],
      [0, 10],
    ])
    // Two quarter circles of radius 2 in place of two corners of 2 + 2.
    expect(strokeLength(path)).toBeCloseTo(30 - 8 + 2 * Math.PI, 9)
  })

  it('cuts no more than half of a short piece', () => {
    const path = roundedPath([...square.slice(0, 2), [10, 1], [0, 1]], 2)
    expect(path.segments[0]!.to).toEqual([9.5, 0])
    expect(sharpestJoint(path)).toBeLessThan(1e-6)
  })

  it('runs through where the path runs straight on', () => {
    const path = roundedPath(
      [
        [0, 0],
        [4, 0],
        [7, 0],
        [10, 0],
        [10, 10],
      ],
      2,
    )
    expect(path.segments.map(({ kind }) => kind)).toEqual(['line', 'arc', 'line'])
    expect(path.segments[0]!.to[0]).toBeCloseTo(8, 9)
  })
})
