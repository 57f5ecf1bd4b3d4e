import { describe, expect, it } from 'vitest'
import { afterWash, BATTINGS, compressedThickness } from '../../src/stitch/batting.ts'
import { BOBBINS, type BobbinStyle, bobbinCapacity, estimateBobbin } from '../../src/stitch/bobbin.ts'
import { inches, MM_PER } from '../../src/units.ts'
import { refusalsOf } from '../support/refusals.ts'

describe('a bobbin’s estimated capacity', () => {
  // Worked by hand from the dimensions, with a 7.5 mm core, 0.8 mm walls and 0.75 g/cm³, for Tex 16.67. Beside the bands
  // remembered for prewound bobbins of about 60 wt (values from memory: L 110-125, 15 110-145, M 200-260 yd) they are low.
  it.each([
    ['L', 100],
    ['15', 139],
    ['M', 198],
  ] as [BobbinStyle, number][])('of style %s is about %i yd of 60 wt', (style, yards) => {
    expect((estimateBobbin(style, 1000 / 60) * 1000) / MM_PER.yd).toBeCloseTo(yards, 0)
  })

  it('grows from L to 15 to M, and with the thread’s fineness', () => {
    expect(estimateBobbin('L', 25)).toBeLessThan(estimateBobbin('15', 25))
    expect(estimateBobbin('15', 25)).toBeLessThan(estimateBobbin('M', 25))
    expect(estimateBobbin('M', 20) / estimateBobbin('M', 40)).toBeCloseTo(2, 12)
    expect(refusalsOf(() => estimateBobbin('L', 0))).toEqual([
      'thread/size thread.tex: 0 tex is not allowed; it may be 0.001 to 1000000 tex',
    ])
  })

  // sewingpartsonline.com, "Understanding bobbins": outer sizes; the ratios of their volumes.
  it('starts from sizes whose ratios are the published ones', () => {
    const volume = (style: BobbinStyle) => BOBBINS[style].diameter ** 2 * BOBBINS[style].width
    expect(BOBBINS.L.width / BOBBINS['15'].width).toBeCloseTo(0.7607, 4)
    expect(volume('M') / volume('L')).toBeCloseTo(1.8088, 4)
    expect(volume('M') / volume('15')).toBeCloseTo(1.376, 4)
  })
})

describe('a bobbin’s capacity', () => {
  it('is what was measured if that is given, and else says that it is an estimate', () => {
    expect(bobbinCapacity({ capacityM: 75 })).toEqual({ capacityM: 75, estimated: false, note: 'as given' })
    const guessed = bobbinCapacity({ style: 'M', tex: 30 })
    expect(guessed.capacityM).toBe(estimateBobbin('M', 30))
    expect(guessed.estimated).toBe(true)
    expect(guessed.note).toContain('style M and Tex 30')
    expect(refusalsOf(() => bobbinCapacity({ capacityM: -1 }))).toEqual([
      'thread/bobbin thread.bobbin: -1 m is not allowed; it may be 0.001 to 100000 m',
    ])
    expect(refusalsOf(() => bobbinCapacity({ style: 'M', tex: Number.NaN }))).toHaveLength(1)
  })
})

describe('batting', () => {
  // The greatest limit that any label or chart of generations-quilt-patterns.com and M. Crust (2020) prints, inches.
  it.each([
    ['cotton-scrim', 10],
    ['cotton', 8],
    ['cotton-unbonded', 2],
    ['blend', 3],
    ['bamboo', 8],
    ['wool', 3],
    ['polyester', 3],
  ] as const)('of %s allows no more than its label', (kind, limit) => {
    expect(BATTINGS[kind].limitMm).toBeLessThanOrEqual(inches(limit))
    expect(BATTINGS[kind].limitMm).toBeGreaterThan(inches(1))
  })

  it('is never thicker under a stitch than it lies, and thinner than the foot’s lift', () => {
    for (const batting of Object.values(BATTINGS)) {
      expect(compressedThickness(batting)).toBeLessThan(batting.loftMm + 0.5)
      expect(compressedThickness(batting)).toBeGreaterThan(0.5)
      expect(compressedThickness(batting)).toBeLessThan(3)
    }
  })

  // thequiltorchard.blogspot.com 2013/09: cotton shrinks by 3 to 5 %.
  it('of cotton shrinks by 3 to 5 percent', () => {
    expect(afterWash(1000, BATTINGS.cotton)).toEqual([950, 970])
  })
})
