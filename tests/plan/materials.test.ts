import { describe, expect, it } from 'vitest'
import { BATTINGS, THREAD_SYSTEMS, toTex } from '../../src/plan/materials.ts'
import { BATTINGS as KINDS } from '../../src/stitch/batting.ts'

describe('a thread as a plan writes it', () => {
  // Tex x Nm = 1000, denier = 9 Tex, 590.5412 / Ne: see tests/stitch/thread-size.test.ts.
  it.each([
    ['tex', 27, 27],
    ['weight', 50, 20],
    ['denier', 270, 30],
    ['nm', 40, 25],
    ['ne', 20, 29.52706],
  ] as const)('of %s %d is Tex %d', (system, value, tex) => {
    expect(toTex(system, value)).toBeCloseTo(tex, 4)
  })

  it('has a system that the plan knows', () => {
    expect(THREAD_SYSTEMS).toEqual(['tex', 'weight', 'denier', 'nm', 'ne'])
  })

  it('can be as thin and as thick as anybody may write, and no more', () => {
    expect([toTex('tex', 1e-3), toTex('tex', 1e5)]).toEqual([1e-3, 1e5])
    for (const value of [0, -1, 0.0009, 100_001, Number.NaN, Number.POSITIVE_INFINITY])
      expect(toTex('tex', value)).toBeNaN()
  })
})

describe('a batting as a plan knows it', () => {
  it('is each of the kinds there are, with its greatest shrinkage', () => {
    expect(Object.keys(BATTINGS)).toEqual(Object.keys(KINDS))
    expect(BATTINGS.cotton).toEqual({ limitMm: 101.6, thicknessMm: 1.558333, shrinkage: 0.05 })
    expect(BATTINGS.wool).toEqual({ limitMm: 76.2, thicknessMm: 2.0875, shrinkage: 0.03 })
  })
})
