import fc from 'fast-check'
import { expect, test } from 'vitest'
import { didYouMean, editDistance, nearestName } from '../../src/plan/suggest.ts'

const KNOWN = ['bracket', 'scallop', 's-echo', 'loop-line', 'none']

test.each([
  ['brackt', 'bracket'],
  ['Scallop', 'scallop'],
  ['sclalop', 'scallop'],
  ['secho', 's-echo'],
  ['loopline', 'loop-line'],
])('for %s the nearest name is %s', (wrong, near) => {
  expect(nearestName(wrong, KNOWN)).toBe(near)
})

test('a name that is like none has no near one', () => {
  expect(nearestName('chrysanthemum', KNOWN)).toBeUndefined()
  expect(nearestName('', KNOWN)).toBeUndefined()
  expect(nearestName('scallop', [])).toBeUndefined()
})

test('the distance is that of textbook examples', () => {
  // Levenshtein distance of kitten and sitting is 3: Navarro, ACM Computing Surveys 33 (2001), from memory.
  expect(editDistance(['kitten', 'sitting'], 9)).toBe(3)
  // Optimal string alignment: CA to ABC is 3, a swap may not be edited again (from memory).
  expect(editDistance(['ca', 'abc'], 9)).toBe(3)
  expect(editDistance(['ab', 'ba'], 9)).toBe(1)
})

/** The same distance by its definition, without any short cut. */
function plainDistance(a: string, b: string): number {
  if (a === '' || b === '') return a.length + b.length
  const [i, j] = [a.length - 1, b.length - 1]
  const [shortA, shortB] = [a.slice(0, i), b.slice(0, j)]
  const swapped = i > 0 && j > 0 && a[i] === b[j - 1] && a[i - 1] === b[j]
  return Math.min(
    plainDistance(shortA, b) + 1,
    plainDistance(a, shortB) + 1,
    plainDistance(shortA, shortB) + (a[i] === b[j] ? 0 : 1),
    swapped ? plainDistance(a.slice(0, i - 1), b.slice(0, j - 1)) + 1 : Number.POSITIVE_INFINITY,
  )
}

test('short cuts change no distance up to the one allowed', () => {
  const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 6 })
  fc.assert(
    fc.property(word, word, fc.integer({ min: 0, max: 7 }), (a, b, allowed) => {
      const distance = plainDistance(a, b)
      expect(editDistance([a, b], allowed)).toBe(distance <= allowed ? distance : Number.POSITIVE_INFINITY)
    }),
    { seed: 1, numRuns: 300 },
  )
})

test('the hint names the near name, and is none for what is no text or like none', () => {
  expect(didYouMean('brackt', KNOWN)()).toBe('did you mean bracket?')
  expect(didYouMean('chrysanthemum', KNOWN)()).toBeUndefined()
  for (const wrong of [7, null, undefined, ['bracket']]) expect(didYouMean(wrong, KNOWN)()).toBeUndefined()
})

test('of two names as near the first is meant, and a nearer one before it', () => {
  expect(nearestName('wove', ['wave', 'woke', 'dove'])).toBe('wave')
  expect(nearestName('scalop', ['scale', 'scallop'])).toBe('scallop')
})

test('a name is near with four in ten letters wrong, at least one and at most twelve', () => {
  expect(nearestName('abcdeXXXX', ['abcde'])).toBeUndefined()
  expect(nearestName('abcdefXXXX', ['abcdef'])).toBe('abcdef')
  expect(nearestName('x', ['y'])).toBe('y')
  expect(nearestName('xx', ['yy'])).toBeUndefined()
  const long = 'a'.repeat(40)
  expect(nearestName(`${long}${'x'.repeat(12)}`, [long])).toBe(long)
  expect(nearestName(`${long}${'x'.repeat(13)}`, [long])).toBeUndefined()
})

test('of a very long text only the beginning is read', () => {
  const long = 'a'.repeat(80)
  expect(nearestName(`${long}${'x'.repeat(1e5)}`, [long])).toBe(long)
})
