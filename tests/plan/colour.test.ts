import { expect, it } from 'vitest'
import { formatColour } from '../../src/plan/colour.ts'

// CSS Color 4: named colours, hex, hsl; alpha is left out.
it.each([
  ['navy', '#000080'],
  ['#ABC', '#aabbcc'],
  ['  tan\n', '#d2b48c'],
  ['hsl(120 100% 50%)', '#00ff00'],
  ['#3f6f8680', '#3f6f86'],
  ['rgb(1 2 3 / 50%)', '#010203'],
])('%s is %s', (written, colour) => {
  expect(formatColour(written)).toBe(colour)
})

it.each(['', 'sea', '#12', 'url(x)', 'none'])('%j is no colour', (written) => {
  expect(formatColour(written)).toBeUndefined()
})
