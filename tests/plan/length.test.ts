import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { lengthHint, parseLength } from '../../src/plan/length.ts'
import { LIMITS } from '../../src/plan/limits.ts'
import { EIGHTHS, lengthText } from '../../src/quilt/length-text.ts'
import { LENGTH_UNITS } from '../../src/units.ts'

/** The inch and the yard are exact by the international agreement of 1959: 25.4 mm and 914.4 mm. */
describe('a length', () => {
  it.each([
    ['2.5 cm', 25],
    ['1 1/2 in', 38.1],
    ['1-1/2 in', 38.1],
    ['1.5"', 38.1],
    ['1.5″', 38.1],
    ['3/4', 19.05],
    ['1½ in', 38.1],
    ['1 ½', 38.1],
    ['½"', 12.7],
    ['⅛', 3.175],
    ['1 1⁄2 in', 38.1],
    ['1 / 2 in', 12.7],
    ['1IN', 25.4],
    ['2 inches', 50.8],
    ['75 m', 75_000],
    ['1 yd', 914.4],
    ['.5', 12.7],
    ['-1 1/2', -38.1],
    ['+3/4 in', 19.05],
    ['  10 mm ', 10],
    [1.5, 38.1],
  ])('%j in a plan in inches is %d mm', (written, mm) => {
    expect(parseLength(written, 'in')).toBe(mm)
  })

  it.each([
    '',
    ' ',
    'in',
    '1e3',
    '0x10',
    '1/0',
    '0/0',
    '1/2/3',
    '1.5 1/2',
    '2,5 cm',
    '1½½',
    '½½',
    '1 2',
    '--1',
    '5.',
    '1_000',
  ])('%j is none', (written) => {
    expect(parseLength(written, 'in')).toBeUndefined()
  })

  it.each(['3 constructor', '3 toString', 'Infinity', 'NaN', '١', '9'.repeat(10), ' '.repeat(41)])(
    '%j is none either',
    (written) => {
      expect(parseLength(written, 'cm')).toBeUndefined()
    },
  )

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e308])(
    '%d is none',
    (written) => {
      expect(parseLength(written, 'in')).toBeUndefined()
    },
  )

  it.each([-0, '-0', '-0/3', 5e-324])('%j is zero without a sign', (written) => {
    expect(parseLength(written, 'in')).toBe(0)
  })

  it('with a decimal comma is answered with how to write it', () => {
    expect(lengthHint('2,5 cm')).toBe('write a point: 2.5 cm')
    expect(lengthHint('a,b')).toBeUndefined()
    expect(lengthHint(3)).toBeUndefined()
  })

  it('that a tape measure shows is read back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), (eighths) => {
        const mm = (eighths * 25.4) / EIGHTHS
        expect(parseLength(lengthText(mm, 'in'), 'cm')).toBeCloseTo(mm, 5)
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  it('is a finite number or none, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: 'binary' }), fc.stringMatching(/^[-+0-9./ ½inc"]{0,50}$/)),
        (text) => {
          for (const unit of LENGTH_UNITS) {
            const mm = parseLength(text, unit)
            expect(mm === undefined || (Number.isFinite(mm) && !Object.is(mm, -0))).toBe(true)
            if (text.length > LIMITS.length) expect(mm).toBeUndefined()
          }
        },
      ),
      { seed: 2, numRuns: 2000 },
    )
  })
})
