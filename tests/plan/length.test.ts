import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lengthText, tapeText } from '../../src/length-text.ts'
import { decimalLength, lengthRange, lengthsApart, parseLength } from '../../src/plan/length.ts'
import { LENGTH_UNITS, MM_PER } from '../../src/units.ts'

test.each([
  ['2.5 cm', 25],
  ['2.5cm', 25],
  ['1 1/2 in', 38.1],
  ['1-1/2 in', 38.1],
  ['1 1/2', 38.1],
  ['1.5"', 38.1],
  ['1.5″', 38.1],
  ['1½ in', 38.1],
  ['1 ½"', 38.1],
  ['½', 12.7],
  ['3/4', 19.05],
  ['3 / 4 in', 19.05],
  ['.5 in', 12.7],
  ['10 mm', 10],
  ['10 MM', 10],
  ['75 m', 75_000],
  ['60 yd', 54_864],
  ['2 inches', 50.8],
  ['-1 in', -25.4],
  ['  4  ', 101.6],
  ['1/3', 8.466667],
])('%s is read as %f mm in a plan in inches', (written, mm) => {
  expect(parseLength(written, 'in')).toBe(mm)
})

test.each([
  '',
  ' ',
  'wide',
  '2 ft',
  '2 5',
  '1/0',
  '1//2',
  '1 1/2 1/2',
  '2,5 cm',
  '1e5',
  '½½',
  '1.5.2',
  'in',
  'NaN',
  '0x10',
])('"%s" is no length', (written) => {
  expect(parseLength(written, 'in')).toBeUndefined()
})

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e308])(
  '%f is no length',
  (written) => {
    expect(parseLength(written, 'in')).toBeUndefined()
  },
)

test('a bare number is in the units of the plan', () => {
  expect(LENGTH_UNITS.map((unit) => parseLength(3, unit))).toEqual([76.2, 30, 3])
  expect(LENGTH_UNITS.map((unit) => parseLength('3', unit))).toEqual([76.2, 30, 3])
})

test('the same length is the same number in every unit', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 10_000_000 }), (thousandths) => {
      const mm = thousandths / 1000
      for (const unit of LENGTH_UNITS) expect(parseLength(mm / MM_PER[unit], unit)).toBe(mm)
      expect(parseLength(`${mm} mm`, 'in')).toBe(mm)
    }),
    { seed: 1, numRuns: 300 },
  )
})

test('any text is read as a finite length or as none', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(...'0123456789./-½" incmyd') }), (written) => {
      const mm = parseLength(written, 'cm')
      expect(mm === undefined || Number.isFinite(mm)).toBe(true)
    }),
    { seed: 1, numRuns: 1000 },
  )
})

test.each([
  [38.1, '1 1/2 in'],
  [25.4, '1 in'],
  [3.175, '1/8 in'],
  [117.475, '4 5/8 in'],
  [-38.1, '-1 1/2 in'],
  [1, '0 in'],
  [50, '2 in'],
  [0, '0 in'],
])('%f mm is shown as %s on a tape in eighths', (mm, text) => {
  expect(tapeText(mm, 'in')).toBe(text)
})

test('a ruler in sixteenths shows odd sixteenths, and the others in their lowest terms', () => {
  expect([1, 2, 4, 8, 17].map((n) => lengthText((n * 25.4) / 16, 'in'))).toEqual([
    '1/16 in',
    '1/8 in',
    '1/4 in',
    '1/2 in',
    '1 1/16 in',
  ])
})

test('metric lengths are shown to a millimetre', () => {
  expect(tapeText(123.44, 'cm')).toBe('12.3 cm')
  expect(tapeText(123.44, 'mm')).toBe('123 mm')
  expect(tapeText(-0.01, 'cm')).toBe('0 cm')
  expect(tapeText(-0.01, 'mm')).toBe('0 mm')
})

test('what is shown is read as the same length, to half of the smallest part shown', () => {
  const worst = { in: 25.4 / 16, cm: 0.5, mm: 0.5 }
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 10_000, noNaN: true }),
      fc.constantFrom(...LENGTH_UNITS),
      (mm, unit) => {
        const read = parseLength(tapeText(mm, unit), 'mm')
        expect(Math.abs((read ?? Number.NaN) - mm)).toBeLessThanOrEqual(worst[unit] + 1e-6)
      },
    ),
    { seed: 1, numRuns: 300 },
  )
})

test('messages show a length as a decimal number of four figures', () => {
  expect(decimalLength(38.1, 'in')).toBe('1.5 in')
  expect(decimalLength(10_000, 'in')).toBe('393.7 in')
})

test('lengths that differ are told with as many figures as it takes', () => {
  expect(lengthsApart([25.4, 38.1], 'in')).toEqual(['1 in', '1.5 in'])
  expect(lengthsApart([38.099, 38.1], 'in')).toEqual(['1.49996 in', '1.5 in'])
  expect(lengthsApart([38.1, 38.1], 'in')).toEqual(['1.5 in', '1.5 in'])
})

test('what a message tells to be allowed is allowed', () => {
  expect(lengthRange([5.08, 25.4], 'in')).toBe('0.2 in to 1 in')
  const limit = fc.double({ min: 0.001, max: 5000, noNaN: true })
  fc.assert(
    fc.property(limit, limit, fc.constantFrom(...LENGTH_UNITS), (a, b, unit) => {
      const [least, greatest] = [Math.min(a, b), Math.max(a, b) * 1.01]
      const told = lengthRange([least, greatest], unit).split(' to ')
      for (const text of told) {
        const mm = parseLength(Number(text.split(' ')[0]), unit)!
        expect(mm).toBeGreaterThanOrEqual(least - 1e-6)
        expect(mm).toBeLessThanOrEqual(greatest + 1e-6)
      }
    }),
    { seed: 1, numRuns: 300 },
  )
})
