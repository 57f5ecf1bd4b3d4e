import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { asciiText, escapeXml, gcodeComments, winAnsiText, wrapText } from '../../src/export/escape.ts'
import { lengthText, longLengthText } from '../../src/export/labels.ts'
import { numberText } from '../../src/export/number-text.ts'
import { anyText } from '../support/any-text.ts'

describe('escaping', () => {
  it('leaves no character of markup', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const escaped = escapeXml(text)
        expect(escaped).not.toMatch(/[<>"']/)
        expect(escaped.replace(/&(amp|lt|gt|quot|#39);/g, '')).not.toContain('&')
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  it('spells the signs of the trade in ASCII and keeps accents where WinAnsi has them', () => {
    expect(asciiText('2\u00bd\u2033 r\u00e9sum\u00e9 \u{1F9F5}')).toBe('2 1/2" resume ?')
    expect(winAnsiText('r\u00e9sum\u00e9 \u215c\u2033 \u2192 \u0159')).toBe('r\u00e9sum\u00e9  3/8" -> r')
  })

  it('keeps comments to printable ASCII of 80 characters without brackets inside', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        for (const comment of gcodeComments(text)) {
          expect(comment).toMatch(/^\([\x20-\x7e]*\)$/)
          expect(comment.length).toBeLessThanOrEqual(80)
          expect(comment.slice(1, -1)).not.toMatch(/[()]/)
        }
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  it('wraps without losing a letter', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 1, max: 40 }), (text, length) => {
        const lines = wrapText(text, length)
        expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''))
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(length)
      }),
      { seed: 1, numRuns: 200 },
    )
  })
})

describe('numbers and lengths as text', () => {
  it('never has an exponent and stays within half a unit of the last place', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -20000, max: 20000, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (v, d) => {
          const text = numberText(v, d)
          expect(text).toMatch(/^-?\d+(\.\d{1,6})?$/)
          expect(text).not.toBe('-0')
          expect(Math.abs(Number(text) - v)).toBeLessThanOrEqual(0.5000001 * 10 ** -d)
        },
      ),
      { seed: 1, numRuns: 1000 },
    )
  })

  it('says inches in sixteenths and metric lengths in their unit', () => {
    expect(lengthText(63.5, 'in')).toBe('2 1/2 in')
    expect(lengthText(25.4 * 0.3125, 'in')).toBe('5/16 in')
    expect(lengthText(25.4 * 1.99, 'in')).toBe('2 in')
    expect(lengthText(63.5, 'cm')).toBe('6.4 cm')
    expect(lengthText(63.5, 'mm')).toBe('64 mm')
    // 1 yd = 0.9144 m exactly (international agreement, 1959)
    expect(longLengthText(9144, 'in')).toBe('10 yd')
    expect(longLengthText(9144, 'cm')).toBe('9.1 m')
  })
})
