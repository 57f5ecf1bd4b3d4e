import { describe, expect, it } from 'vitest'
import { completeWeights, ROUTE_WEIGHTS } from '../../src/route/weights.ts'
import { refusalsOf } from '../support/refusals.ts'

describe('weights', () => {
  it('are filled in, and those that are given kept', () => {
    expect(completeWeights()).toEqual(ROUTE_WEIGHTS)
    expect(completeWeights({ overlap: 0, travelAgain: 1 })).toEqual({
      ...ROUTE_WEIGHTS,
      overlap: 0,
      travelAgain: 1,
    })
  })

  it('are refused below what they may be', () => {
    const refusals = refusalsOf(() =>
      completeWeights({
        start: -1,
        overlap: Number.NaN,
        reposition: Number.POSITIVE_INFINITY,
        travelAgain: 0.9,
        travel: -0.1,
      }),
    )
    expect(refusals).toEqual([
      'route/bad-weight weights.start: weight -1; must be 0 or more',
      'route/bad-weight weights.overlap: weight NaN; must be 0 or more',
      'route/bad-weight weights.reposition: weight Infinity; must be 0 or more',
      'route/bad-weight weights.travelAgain: weight 0.9; must be 1 or more',
      'route/bad-weight weights.travel: weight -0.1; must be 0 or more',
    ])
  })
})
