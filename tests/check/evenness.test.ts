import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { measureEvenness } from '../../src/check/evenness.ts'
import { PlanError } from '../../src/error.ts'

const band = (name: string, lengthMm: number, areaMm2 = 10_000) => ({ name, lengthMm, areaMm2 })

describe('evenness', () => {
  it('is the length of line per area, set against the neighbour before', () => {
    const { densities, worstRatio, warnings } = measureEvenness([
      band('sand', 1000),
      band('rope', 2500),
      band('wide', 2500, 20_000),
    ])
    expect(densities.map((d) => d.mmPerCm2)).toEqual([10, 25, 12.5])
    expect(densities.map((d) => d.ratio)).toEqual([undefined, 2.5, 2])
    expect(worstRatio).toBe(2.5)
    expect(warnings).toEqual([])
  })

  // A ratio above about 3 between neighbours deserves a warning: common practice, no source.
  it('warns above 3, on whichever side the dense band lies, and says which to quilt more', () => {
    const { warnings } = measureEvenness([band('a', 1000), band('b', 3001), band('c', 900)])
    expect(warnings.map(({ code, at, hint }) => [code, at, hint])).toEqual([
      ['check/uneven', 'b', 'quilt "a" more closely'],
      ['check/uneven', 'c', 'quilt "c" more closely'],
    ])
    expect(measureEvenness([band('a', 1000), band('b', 3000)]).warnings).toEqual([])
  })

  it('warns of a bare band beside a stitched one, not of two bare ones', () => {
    expect(measureEvenness([band('a', 0), band('b', 500)]).worstRatio).toBe(Infinity)
    expect(measureEvenness([band('a', 0), band('b', 500)]).warnings[0]!.message).toContain(
      'beside the bare "a"',
    )
    expect(measureEvenness([band('a', 0), band('b', 0)]).warnings).toEqual([])
  })

  it('does not change with the size of the quilt', () => {
    const some = fc.array(
      fc.tuple(fc.double({ min: 1, max: 1e5, noNaN: true }), fc.double({ min: 1, max: 1e6, noNaN: true })),
      { minLength: 2, maxLength: 9 },
    )
    fc.assert(
      fc.property(some, fc.double({ min: 0.1, max: 10, noNaN: true }), (bands, k) => {
        const of = (factor: number) =>
          measureEvenness(bands.map(([l, a], i) => band(`${i}`, l * factor, a * factor * factor)))
        expect(of(k).worstRatio / of(1).worstRatio).toBeCloseTo(1, 9)
        expect(of(1).worstRatio).toBeGreaterThanOrEqual(1)
      }),
      { seed: 13, numRuns: 100 },
    )
  })

  it('is refused for an area of nothing', () => {
    expect(() => measureEvenness([band('a', 5, 0)])).toThrow(PlanError)
    expect(() => measureEvenness([band('a', Number.NaN)])).toThrow(PlanError)
    expect(() => measureEvenness([], 0.5)).toThrow(PlanError)
  })
})
