import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { diagnoseMeasured } from '../../src/quilt/diagnose-measured.ts'
import { fitQuadrilateral, measureQuadrilateral, placeOnto } from '../../src/quilt/fit-quadrilateral.ts'
import { layOutQuilt, type QuiltSize } from '../../src/quilt/layout.ts'
import { layOutMeasured } from '../../src/quilt/measured-layout.ts'
import { measuredQuilt, sampleSize } from './sample-sizes.ts'

const wobble = fc.double({ min: -30, max: 30, noNaN: true })
const quadrilateral = fc
  .tuple(
    fc.double({ min: 400, max: 2000, noNaN: true }),
    fc.double({ min: 400, max: 2000, noNaN: true }),
    fc.array(wobble, { minLength: 8, maxLength: 8 }),
  )
  .map(([w, h, d]): [number, number][] => [
    [d[0]!, d[1]!],
    [w + d[2]!, d[3]!],
    [w + d[4]!, h + d[5]!],
    [d[6]!, h + d[7]!],
  ])

describe('the outline that fits measures', () => {
  it('is the outline that was measured', () => {
    fc.assert(
      fc.property(quadrilateral, (corners) => {
        const fitted = placeOnto(fitQuadrilateral(measureQuadrilateral(corners)), corners)
        fitted.forEach((p, i) => {
          expect(Math.hypot(p[0] - corners[i]![0], p[1] - corners[i]![1])).toBeLessThan(1e-5)
        })
      }),
      { seed: 71, numRuns: 200 },
    )
  })

  it('misses no measure by more than the measures miss each other', () => {
    // Opposite edges 600 and 604 with 600 in the middle: a straight outline has 602 there. Least squares leaves a third of
    // the difference on the middle (weights 1, 1 and the mean of both), by hand: minimise 2 e² + (2 - e)² at e = 2/3.
    const fitted = measureQuadrilateral(fitQuadrilateral({ across: [604, 600, 604], down: [500, 500, 500] }))
    expect(fitted.across[0]).toBeCloseTo(604 - 4 / 3, 3)
    expect(fitted.across[1]).toBeCloseTo(604 - 4 / 3, 3)
  })

  it('is taken for square without diagonals', () => {
    const fitted = measureQuadrilateral(fitQuadrilateral({ across: [600, 600, 600], down: [500, 500, 500] }))
    expect(fitted.diagonals[0]).toBeCloseTo(Math.hypot(600, 500), 6)
    expect(fitted.diagonals[1]).toBeCloseTo(Math.hypot(600, 500), 6)
  })
})

describe('a measured layout', () => {
  it('is the planned one, to the last bit, where everything measures as planned', () => {
    fc.assert(
      fc.property(sampleSize, (size) => {
        const planned = layOutQuilt(size)
        const measured = planned.rings.map((ring, k) => ({ band: k - 1, ...measureQuadrilateral(ring) }))
        expect(JSON.stringify(layOutMeasured(size, measured))).toBe(JSON.stringify(planned))
      }),
      { seed: 72, numRuns: 100 },
    )
  })

  it('has the measured sizes where the measures agree', () => {
    fc.assert(
      fc.property(measuredQuilt, ({ size, measured }) => {
        const quilt = layOutMeasured(size, measured)
        for (const m of measured) {
          const found = measureQuadrilateral(quilt.rings[m.band + 1]!)
          found.across.forEach((x, i) => expect(Math.abs(x - m.across[i]!)).toBeLessThan(1e-4))
          found.down.forEach((x, i) => expect(Math.abs(x - m.down[i]!)).toBeLessThan(1e-4))
          found.diagonals.forEach((x, i) => expect(Math.abs(x - m.diagonals![i]!)).toBeLessThan(1e-4))
        }
      }),
      { seed: 73, numRuns: 100 },
    )
  })

  it('keeps the planned widths of bands that were not measured', () => {
    const size = plainSize()
    const quilt = layOutMeasured(size, [
      { band: 0, across: [710, 708, 706], down: [505, 504, 503], diagonals: [870, 867] },
    ])
    for (const side of quilt.bands[1]!.sides) {
      const along = Math.hypot(side.innerB[0] - side.innerA[0], side.innerB[1] - side.innerA[1])
      for (const p of [side.outerA, side.outerB]) {
        const height =
          -(
            (side.innerB[0] - side.innerA[0]) * (p[1] - side.innerA[1]) -
            (side.innerB[1] - side.innerA[1]) * (p[0] - side.innerA[0])
          ) / along
        expect(height).toBeCloseTo(40, 9)
      }
    }
  })

  it('refuses measures that leave no border, and bands that do not exist', () => {
    const size = plainSize()
    const small = { across: [610, 610, 610] as const, down: [405, 405, 405] as const }
    expect(() => layOutMeasured(size, [{ band: 0, ...small }])).toThrow(
      /only .* mm wide on its top; planned 50.0 mm/,
    )
    expect(() => layOutMeasured(size, [{ band: 2, ...small }])).toThrow(
      'band 2; must be a whole number from -1',
    )
  })
})

/** 600 x 400 with bands of 50 and 40 mm. */
function plainSize(): QuiltSize {
  const even = (w: number) => ({ top: w, right: w, bottom: w, left: w })
  return {
    centre: { width: 600, height: 400, fabric: '#f4efe4' },
    bands: [
      { name: 'sand', width: even(50), fabric: '#d9c7a0', corners: 'mitred' },
      { name: 'rope', width: even(40), fabric: '#b8563f', corners: 'mitred' },
    ],
    binding: 6,
  }
}

describe('the diagnosis', () => {
  const diagnose = (measured: Parameters<typeof layOutMeasured>[1]) => {
    const size = plainSize()
    return diagnoseMeasured(size, measured, { quilt: layOutMeasured(size, measured), unit: 'mm' })
  }

  it('says nothing about a quilt as planned', () => {
    expect(diagnose([{ band: 0, across: [700, 700, 700], down: [500, 500, 500] }])).toEqual([])
  })

  it('names a border that is longer than the quilt through its middle, and by how much', () => {
    const found = diagnose([{ band: 0, across: [712, 700, 700], down: [500, 500, 500] }])
    const [ripple] = found.filter((f) => f.code === 'quilt/ripples')
    expect(ripple!.message).toBe(
      'the top of sand is 12 mm longer than the quilt through its middle: it will ripple',
    )
    expect(ripple!.amount).toBe(12)
    expect(found.map((f) => f.code)).toContain('quilt/uneven-edges')
  })

  it('names the longer diagonal', () => {
    const [first] = diagnose([
      { band: 0, across: [700, 700, 700], down: [500, 500, 500], diagonals: [855, 865] },
    ])
    expect(first!.message).toBe(
      'sand is out of square: its diagonal from top right to bottom left is 10 mm longer than the other',
    )
  })

  it('tells what each band adds to the error', () => {
    const texts = diagnose([
      { band: 0, across: [706, 706, 706], down: [500, 500, 500] },
      { band: 1, across: [790, 790, 790], down: [580, 580, 580] },
    ])
      .filter((f) => f.code === 'quilt/errors-add-up')
      .map((f) => f.message)
    expect(texts).toEqual([
      'the width at sand is +6 mm off the plan: +6 mm from this band, +0 mm from inside it',
      'the width at rope is +10 mm off the plan: +4 mm from this band, +6 mm from inside it',
    ])
  })

  it('names strips whose motifs had to stretch', () => {
    const found = diagnose([{ band: 0, across: [725, 725, 725], down: [500, 500, 500] }])
    const stretched = found.filter((f) => f.code === 'quilt/motifs-stretched').map((f) => f.message)
    expect(stretched).toContain(
      'motifs on the top of rope are stretched by 3.4 percent to fit the measured length',
    )
  })
})
