import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { inches } from '../../src/units.ts'
import { planOf, problemsOf, small } from './complaints.ts'

const centre = { width: 60, height: 72 }
const finished = (file: object): number[] => planOf({ centre, ...file }).bands.map(({ width }) => width.top)

describe('a cut width', () => {
  it('loses two seam allowances: 1 1/2 in finishes at 1 in (common practice, no source)', () => {
    expect(finished({ bands: [{ cut: 1.5 }, { width: 3 }] })[0]).toBeCloseTo(inches(1), 6)
  })

  it('of the outermost band loses one seam allowance and what the binding covers (common practice, no source)', () => {
    expect(finished({ bands: [{ width: 3 }, { cut: 3.5 }] })[1]).toBeCloseTo(inches(3), 6)
    expect(finished({ bands: [{ cut: 3.5 }], binding: 0.5 })[0]).toBeCloseTo(inches(2.75), 6)
  })

  it('is the finished width and 1/2 in: 4 1/2 in for 4 in (allpeoplequilt.com, "Border and corner blocks")', () => {
    // The page's rule on a centre of 60 x 72: with a border of 4 in the top finishes at 68 x 80.
    const plan = planOf({ centre, bands: [{ cut: '4 1/2' }, { width: 1 }] })
    const { width } = plan.bands[0]!
    expect(plan.centre.width + width.left + width.right).toBeCloseTo(inches(68), 6)
    expect(plan.centre.height + width.top + width.bottom).toBeCloseTo(inches(80), 6)
  })

  it('of three strips, 2 1/2 in each, finishes at 6 in (tamarinis.typepad.com 2021/04: 6 1/2 in before it is sewn on)', () => {
    const strips = finished({ bands: [{ cut: 2.5 }, { cut: 2.5 }, { cut: 2.5 }, { width: 1 }] }).slice(0, 3)
    expect(strips.reduce((a, b) => a + b)).toBeCloseTo(inches(6), 6)
  })

  it('may differ on every side', () => {
    const { width } = planOf({
      centre,
      bands: [{ cut: { top: 2.5, right: '2 in', bottom: '10 cm', left: 1 } }, { width: 1 }],
    }).bands[0]!
    expect(width.top).toBeCloseTo(inches(2), 6)
    expect(width.right).toBeCloseTo(inches(1.5), 6)
    expect(width.bottom).toBeCloseTo(100 - inches(0.5), 6)
    expect(width.left).toBeCloseTo(inches(0.5), 6)
  })

  it('that the seams would use up is refused', () => {
    expect(problemsOf(small({ band: 'cut: 1/2 in' })).map((p) => p.at)).toEqual(['bands[0].cut'])
  })

  it('is what the finished width says with the allowances put back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 96 }), (eighths) => {
        const [cut, width] = [eighths / 8 + 0.5, eighths / 8]
        const file = (band: object) => finished({ bands: [band, { width: 1 }] })[0]
        expect(file({ cut })).toBeCloseTo(file({ width })!, 6)
      }),
      { seed: 3, numRuns: 50 },
    )
  })
})

describe('a filler in a band', () => {
  it('that is too narrow for it is refused, with those that would fit', () => {
    const [problem] = problemsOf(small({ band: 'width: 3/4, filler: s-echo' }))
    expect(problem).toMatchObject({ code: 'plan/band-too-narrow', at: 'bands[0].filler' })
    expect(problem!.message).toBe('the band is 0.75 in wide; s-echo needs 1.5 in or more')
    expect(problem!.hint).toMatch(/bracket.*would fit/)
  })

  it('none, or a filler called none without values, is nothing', () => {
    for (const filler of ['none', { none: null }, { none: {} }])
      expect(planOf({ centre, bands: [{ width: 2, filler }] }).bands[0]!.filler).toBeUndefined()
  })
})
