import fc from 'fast-check'
import { expect, it } from 'vitest'
import { printable } from '../../src/plan/printable.ts'
import { anyText } from '../support/any-text.ts'

it.each([
  ['plain "text" & <more>', 'plain "text" & <more>'],
  ['مرسى 港 🐚', 'مرسى 港 🐚'],
  ['a\u0000b', 'a\\u0000b'],
  ['\u001b[31mred', '\\u001b[31mred'],
  ['line\nline', 'line\\u000aline'],
  ['\u0085', '\\u0085'],
  ['\ud800x', '\\ud800x'],
  ['\u202eevil\u202c', '\\u202eevil\\u202c'],
  ['\u2066x\u2069', '\\u2066x\\u2069'],
  ['a\u2028b\u2029c', 'a\\u2028b\\u2029c'],
])('%j is shown as %s', (text, shown) => {
  expect(printable(text)).toBe(shown)
})

it('nothing that a terminal acts on is left in any text, and what is left is the same again', () => {
  fc.assert(
    fc.property(anyText, (text) => {
      const shown = printable(text)
      expect(shown).not.toMatch(/[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069]/u)
      expect(printable(shown)).toBe(shown)
    }),
    { seed: 1, numRuns: 100 },
  )
})
