import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { edgeAt, fitHalfSide, type HalfSide, nearestOfParity } from '../../src/motif/fit.ts'

const halfSide: fc.Arbitrary<HalfSide> = fc
  .record({
    first: fc.double({ min: 100, max: 800, noNaN: true }),
    widths: fc.array(fc.double({ min: 12, max: 150, noNaN: true }), { minLength: 1, maxLength: 9 }),
    factor: fc.double({ min: 0.3, max: 3, noNaN: true }),
    free: fc.boolean(),
    stretches: fc.integer({ min: 1, max: 4 }),
    phase: fc.constantFrom(0 as const, 1 as const),
  })
  .map(({ first, widths, factor, free, stretches, phase }) => {
    const halves = [first]
    for (const width of widths) halves.push(halves.at(-1)! + width)
    const bands = widths.map((width, k) => ({
      ends: free && k % 3 === 1 ? ('free' as const) : ('alternate' as const),
      repeat: Math.min(width * factor, first),
    }))
    return { halves, bands, stretches, phase }
  })

describe('the fit of a half side', () => {
  it('keeps stations in order from the middle to the corner on every seam', () => {
    fc.assert(
      fc.property(halfSide, (side) => {
        const { at } = fitHalfSide(side)
        for (const seam of at) {
          const shares = seam.filter((share) => share !== undefined)
          for (let i = 1; i < shares.length; i++) expect(shares[i - 1]!).toBeGreaterThan(shares[i]!)
          for (const share of shares) expect(share >= 0 && share <= 1).toBe(true)
        }
      }),
      { seed: 31, numRuns: 300 },
    )
  })

  it('touches each seam at every other station, on the edge that the rule says', () => {
    fc.assert(
      fc.property(halfSide, (side) => {
        const { at } = fitHalfSide(side)
        side.bands.forEach((_, k) => {
          for (let station = 0; station <= side.stretches; station++) {
            const seam = edgeAt(k, station, side.phase) === 'inner' ? k : k + 1
            expect(at[seam]![station]).toBeDefined()
          }
        })
      }),
      { seed: 32, numRuns: 200 },
    )
  })

  it('gives every stretch of an alternating filler an odd number of half repeats', () => {
    fc.assert(
      fc.property(halfSide, (side) => {
        const { halfRepeats } = fitHalfSide(side)
        side.bands.forEach((band, k) => {
          for (const count of halfRepeats[k]!) {
            expect(count).toBeGreaterThanOrEqual(1)
            expect(count % 2).toBe(band.ends === 'alternate' ? 1 : 0)
          }
        })
      }),
      { seed: 33, numRuns: 300 },
    )
  })

  it('scales with the quilt', () => {
    fc.assert(
      fc.property(halfSide, fc.double({ min: 0.1, max: 20, noNaN: true }), (side, k) => {
        const scaled = {
          ...side,
          halves: side.halves.map((h) => h * k),
          bands: side.bands.map((b) => ({ ...b, repeat: b.repeat * k })),
        }
        expect(fitHalfSide(scaled).halfRepeats).toEqual(fitHalfSide(side).halfRepeats)
      }),
      { seed: 34, numRuns: 100 },
    )
  })
})

it('the nearest count of a parity is nearest as a ratio', () => {
  expect(nearestOfParity(6.9, 1)).toBe(7)
  expect(nearestOfParity(7.99, 1)).toBe(9)
  expect(nearestOfParity(0.2, 3)).toBe(3)
  expect(nearestOfParity(5, 2)).toBe(6)
})
