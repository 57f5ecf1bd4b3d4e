import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { diameterOf, sizeFromTex, THREAD_SYSTEMS, texOf } from '../../src/stitch/thread-size.ts'
import { refusalsOf } from '../support/refusals.ts'

describe('thread sizes', () => {
  it('come back unchanged from every system', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...THREAD_SYSTEMS),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (system, value) => {
          expect(sizeFromTex(texOf({ system, value }), system) / value).toBeCloseTo(1, 12)
        },
      ),
      { seed: 6, numRuns: 200 },
    )
  })

  // Tex x Nm = 1000, denier = 9 Tex: tayyon.com, "Linear density conversion formulas". wt = km per kg:
  // homequestionsanswered.com, "What is thread weight".
  it.each([
    [30, 33.33, 300],
    [40, 25, 225],
    [50, 20, 180],
    [60, 16.67, 150],
    [80, 12.5, 112.5],
    [100, 10, 90],
  ])('of %i wt are as tabled in Tex and denier', (wt, tex, denier) => {
    expect(texOf({ system: 'wt', value: wt })).toBeCloseTo(tex, 2)
    expect(sizeFromTex(texOf({ system: 'wt', value: wt }), 'denier')).toBeCloseTo(denier, 9)
    expect(texOf({ system: 'nm', value: wt })).toBe(texOf({ system: 'wt', value: wt }))
  })

  // "A Thread of Truth", p. 7: denier 120, 150, 180 two-ply are cotton counts 44.29, 35.43, 29.53.
  it.each([
    [120, 44.29],
    [150, 35.43],
    [180, 29.53],
  ])('of %i denier are the published cotton count %f', (denier, ne) => {
    expect(sizeFromTex(texOf({ system: 'denier', value: denier }), 'ne')).toBeCloseTo(ne, 2)
  })

  it('of twisted strands are those of the strands together', () => {
    // mlthread.com: Ne 40/2 polyester is Tex 29.5. tge-gmbh.de: Nm 80/2 is 12.5 tex x 2.
    expect(texOf({ system: 'ne', value: 40, plies: 2 })).toBeCloseTo(29.5, 1)
    expect(texOf({ system: 'nm', value: 80, plies: 2 })).toBeCloseTo(25, 12)
    // "A Thread of Truth", p. 7: 40/3 cotton is equivalent to a single count of 13.33.
    expect(sizeFromTex(texOf({ system: 'ne', value: 40, plies: 3 }), 'ne')).toBeCloseTo(13.33, 2)
  })

  it('in Ne follow from the pound and the yard', () => {
    // 453.59237 g per pound over 840 yd of 0.9144 m: 590.5412; Ne x denier = 5314.871.
    expect(texOf({ system: 'ne', value: 1 })).toBeCloseTo(590.5412, 4)
    expect(sizeFromTex(texOf({ system: 'ne', value: 1 }), 'denier')).toBeCloseTo(5314.871, 3)
    expect(texOf({ system: 'dtex', value: 200 })).toBe(20)
  })

  // Peirce, J. Textile Inst. 28 (1937), from memory: d = 1 / (28 sqrt(Ne)) in.
  it.each([
    [20, 0.16694],
    [25, 0.18665],
    [30, 0.20446],
    [40, 0.2361],
  ])('of Tex %i have the diameter of a spun yarn', (tex, mm) => {
    expect(diameterOf(tex)).toBeCloseTo(mm, 4)
  })

  it('that are none are refused', () => {
    expect(refusalsOf(() => texOf({ system: 'wt', value: 0, plies: 25 }))).toEqual([
      'thread/size thread.size: 0 wt is not allowed; it may be 0.001 to 100000 wt',
      'thread/size thread.plies: 25 plies is not allowed; it may be 1 to 24 plies',
    ])
    expect(refusalsOf(() => texOf({ system: 'ne', value: 40, plies: 0 }))).toHaveLength(1)
    expect(refusalsOf(() => sizeFromTex(Number.NaN, 'nm'))).toEqual([
      'thread/size thread.tex: NaN tex is not allowed; it may be 0.001 to 1000000 tex',
    ])
  })
})
