import { describe, expect, it } from 'vitest'
import { Parser } from 'yaml'
import { deepBracket, deepToken } from '../../src/plan/nesting.ts'

const tokensOf = (text: string) => [...new Parser().parse(text)]

describe('brackets', () => {
  it.each([
    ['[[1]]', 2, undefined],
    ['[[1]]', 1, 1],
    ['[{a: [1]}]', 2, 5],
    ['[1], [2], [3]', 1, undefined],
    ['[[1], [2], [[3]]]', 2, 12],
    ['{a: {b: 1}, c: {d: 1}}', 2, undefined],
    ['a: "[[[["', 1, undefined],
    ["a: '{{{{'", 1, undefined],
    ['a: x[[[[', 1, undefined],
    ['', 1, undefined],
    ['- [[]]\n---\n- [[]]', 1, 3],
  ])('of %j stand deeper than %i levels at %s', (text, most, offset) => {
    expect(deepBracket(text, most)).toBe(offset)
  })

  it('are read no further than that: a file of nothing but brackets costs nothing', () => {
    expect(deepBracket('['.repeat(1e6), 16)).toBe(16)
  })
})

describe('levels of a file', () => {
  it.each([
    ['a: 1', 1, undefined],
    ['a: 1', 0, 0],
    ['a:\n  b: 1', 1, 5],
    ['a:\n  b: 1', 2, undefined],
    ['- - 1', 1, 2],
    ['a: [[1]]', 2, 4],
    ['a: [[1]]', 3, undefined],
    ['? [1]\n: 2', 1, 2],
    ['just text', 0, undefined],
    ['', 0, undefined],
    ['a: 1\n---\nb:\n  c: 1', 1, 14],
  ])('of %j go deeper than %i at %s', (text, most, offset) => {
    expect(deepToken(tokensOf(text), most)).toBe(offset)
  })
})
