import { describe, expect, it } from 'vitest'
import { applyAffine, scaling } from '../../src/geometry/affine.ts'
import { unit } from '../../src/geometry/point.ts'
import { arcFromChord, cubic, line, reverseSegment, splitAt } from '../../src/geometry/segment.ts'
import {
  boundsOf,
  joinStrokes,
  StrokeBuilder,
  strokeLength,
  strokeThrough,
  transformStroke,
} from '../../src/geometry/stroke.ts'

const across = strokeThrough([
  [0, 0],
  [10, 0],
])

describe('what cannot be a stroke', () => {
  it('is refused as our bug: nothing, a gap, an arc without a chord', () => {
    expect(() => strokeThrough([])).toThrow('a stroke needs a start')
    expect(() => joinStrokes([])).toThrow('no strokes to join')
    expect(() => joinStrokes([across, across])).toThrow('strokes do not meet: 10,0 and 0,0')
    expect(() => boundsOf([])).toThrow('no points, no bounds')
    expect(() => new StrokeBuilder([5, 5]).follow(across)).toThrow('not at the start: 5,5 and 0,0')
    expect(() => arcFromChord([1, 1], [1, 1], 3)).toThrow('zero chord: 1,1 to 1,1')
  })
})

describe('a stroke that is built', () => {
  it('leaves out moves of no length, and goes on from another', () => {
    const built = new StrokeBuilder([0, 0])
      .lineTo([0, 0])
      .arcTo([0, 0], 3)
      .arcAlong([1, 0], [0, 0])
      .follow(across)
      .arcAlong([1, 0], [10, 4])
    expect(built.count).toBe(2)
    expect(built.at).toEqual([10, 4])
    // Ten along, then half a circle of radius 2.
    expect(strokeLength(built.build())).toBeCloseTo(10 + 2 * Math.PI, 9)
  })

  it('of a cubic is mapped by its control points, turned round and split', () => {
    const bow = { start: [0, 0] as const, segments: [cubic([0, 4], [8, 4], [8, 0])] }
    const map = scaling(2, 3)
    expect(transformStroke(bow, map).segments).toEqual([
      cubic(applyAffine(map, [0, 4]), applyAffine(map, [8, 4]), applyAffine(map, [8, 0])),
    ])
    expect(reverseSegment([0, 0], bow.segments[0]!)).toEqual(cubic([8, 4], [0, 4], [0, 0]))
    expect(splitAt([0, 0], bow.segments[0]!, 0.5)).toEqual([
      cubic([0, 2], [2, 3], [4, 3]),
      cubic([6, 3], [8, 2], [8, 0]),
    ])
    expect(splitAt([0, 0], line([4, 8]), 0.25)).toEqual([line([1, 2]), line([4, 8])])
  })
})

it('a vector of no length has no direction', () => {
  expect(unit([0, 0])).toEqual([0, 0])
  expect(unit([0, -3])).toEqual([0, -1])
})
