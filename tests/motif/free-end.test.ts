import { describe, expect, it } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { joint } from '../../src/motif/free-end.ts'

describe('a joint', () => {
  it('is tangent to both headings, with handles of a share of the distance', () => {
    const from = { at: [0, 0] as Point, along: [0, 1] as Point }
    const to = { at: [10, 0] as Point, along: [1, 0] as Point, pull: 0.5 }
    expect(joint(from, to)).toEqual({ kind: 'cubic', c1: [0, 4], c2: [5, 0], to: [10, 0] })
    expect(joint({ ...from, pull: 0.1 }, { ...to, pull: 0 })).toMatchObject({ c1: [0, 1], c2: [10, 0] })
  })
})
