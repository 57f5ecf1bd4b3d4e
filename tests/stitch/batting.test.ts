import { describe, expect, it } from 'vitest'
import { afterWash, BATTINGS, type Batting, compressedThickness } from '../../src/stitch/batting.ts'

describe('a kind of batting', () => {
  // Limits: the careful end of the labels and charts named at BATTINGS; loft as printed there: cotton 1/8 in, 80/20
  // 3/32 in, polyester of 4 oz 3/8 in, wool 1/2 in. Shrinkage of cotton: thequiltorchard.blogspot.com 2013/09.
  it.each([
    ['cotton-scrim', 203.2, 3.175, [0.03, 0.05]],
    ['cotton', 101.6, 3.175, [0.03, 0.05]],
    ['cotton-unbonded', 50.8, 3.175, [0.03, 0.05]],
    ['blend', 76.2, 2.38125, [0.02, 0.04]],
    ['bamboo', 203.2, 3.175, [0.02, 0.03]],
    ['wool', 76.2, 12.7, [0, 0.03]],
    ['polyester', 76.2, 9.525, [0, 0]],
  ] as const)('%s has its limit, loft and shrinkage, in mm', (kind, limit, loft, shrinkage) => {
    const batting: Batting = BATTINGS[kind]
    expect(batting.limitMm).toBeCloseTo(limit, 9)
    expect(batting.loftMm).toBeCloseTo(loft, 9)
    expect(batting.shrinkage).toEqual(shrinkage)
  })

  it('is called by a title of its own', () => {
    const titles = Object.values(BATTINGS).map(({ title }) => title)
    expect(new Set(titles).size).toBe(titles.length)
    expect(BATTINGS.blend.title).toBe('80/20 cotton and polyester')
  })

  it('is as thick under a stitch as two layers of cotton and what is left of its loft', () => {
    expect(compressedThickness({ ...BATTINGS.wool, loftMm: 8, leftUnderStitch: 0.25 })).toBe(2.5)
    expect(compressedThickness(BATTINGS.cotton)).toBeCloseTo(0.5 + 3.175 / 3, 9)
    expect(compressedThickness(BATTINGS.polyester)).toBeCloseTo(0.5 + 9.525 / 8, 9)
  })

  it('gives the range of sizes after a wash, the smallest first', () => {
    expect(afterWash(2000, { shrinkage: [0.01, 0.1] })).toEqual([1800, 1980])
    expect(afterWash(2000, BATTINGS.polyester)).toEqual([2000, 2000])
  })
})
