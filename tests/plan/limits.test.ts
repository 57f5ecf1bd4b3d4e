import { describe, expect, it } from 'vitest'
import { LIMITS } from '../../src/plan/limits.ts'
import { problemsOf, small } from './complaints.ts'

const times = (count: number, text: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => text(i)).join('')

/** Codes of the problems of a file that has to be refused within five seconds of work, as any input must be. */
function quickCodes(text: string): string[] {
  const before = process.cpuUsage()
  const codes = [...new Set(problemsOf(text).map((p) => p.code))]
  const { user, system } = process.cpuUsage(before)
  expect((user + system) / 1e6).toBeLessThan(2)
  return codes
}

/** A quarter of the largest file: what grows faster than its file shows at that size. */
const fill = (text: string): string => text.repeat(Math.floor(LIMITS.fileBytes / 4 / text.length))

describe('a file that asks for too much is refused before work starts', () => {
  it.each([
    ['too many characters', 'x'.repeat(LIMITS.fileBytes + 1), 'plan/too-large'],
    ['brackets in brackets', `a: ${fill('[')}`, 'plan/too-deep'],
    ['brackets whose closing stands in comments', fill('[ #]\n'), 'plan/too-deep'],
    ['lists in lists', `a:\n ${fill('- ')}`, 'plan/too-deep'],
    ['keys in keys', times(450, (i) => `${' '.repeat(i)}a:\n`), 'plan/too-deep'],
    ['keys of keys', fill('? '), 'plan/too-deep'],
  ])('%s', (_, text, code) => {
    expect(quickCodes(text)).toEqual([code])
  })

  it.each([
    ['keys', times(5000, (i) => `k${i}: 1\n`)],
    ['keys in one line', `a: {${times(5000, (i) => `k${i}: 1,`)}}`],
    ['the same key', fill('a: 1\n')],
    ['fillers', small({ band: `width: 2, filler: {${times(4000, (i) => `k${i}: {},`)}}` })],
    ['values', small({ band: `width: 2, filler: {scallop: {${times(4000, (i) => `k${i}: 1,`)}}}` })],
    ['entries', `a: [${fill('b,')}]`],
    ['aliases', `a: &a 1\nb: [${fill('*a,')}]`],
    ['regions', small({ more: `avoid: [${fill('{circle: {at: [1,1], radius: 1}},')}]` })],
    ['anchors', fill('&a ')],
    ['tags', fill('!a ')],
    ['documents', fill('---\n')],
    ['directives', fill('%TAG ! a\n')],
    ['comments', fill('#a\n')],
    ['lines of a quote that never ends', `a: "${fill('x\n')}`],
    ['lines of a block', `a: |\n${fill(' \n')}`],
    ['characters in a line', `title: "${fill('x')}"`],
    ['spaces', fill(' ')],
    ['colons', fill(': ')],
    ['quotes', fill('" ')],
    ['emoji', fill('🐚')],
  ])('%s without end', (_, text) => {
    expect(quickCodes(text)).not.toEqual([])
  })

  it('takes a nesting that is allowed', () => {
    const deep = (levels: number) => `${'['.repeat(levels)}1${']'.repeat(levels)}`
    expect(problemsOf(small({ more: `x: ${deep(LIMITS.depth - 1)}\n` })).map((p) => p.code)).toEqual([
      'plan/unknown-key',
    ])
    expect(problemsOf(small({ more: `x: ${deep(LIMITS.depth)}\n` })).map((p) => p.code)).toEqual([
      'plan/too-deep',
    ])
  })
})

describe('a hostile name', () => {
  it.each(['constructor', 'toString', 'hasOwnProperty', '__proto__', 'prototype'])(
    'such as %s is a name like any other',
    (name) => {
      expect(problemsOf(small({ band: `name: ${name}, width: 2` }))).toEqual([])
      for (const text of [
        small({ band: `width: 2, filler: ${name}` }),
        small({ band: `width: 2, filler: { ${name}: { a: 1 } }` }),
        small({ band: `width: 2, filler: { scallop: { ${name}: 1 } }` }),
        small({ band: `width: 2, filler: scallop, sides: { ${name}: scallop }` }),
        small({ band: `width: 2, pieced: { unit: ${name} }` }),
        small({ more: `${name}: 1\n` }),
        small({ more: `batting: { kind: ${name} }\n` }),
        small({ more: `route: { start: ${name} }\n` }),
        small({ more: `route: { ditch: [{ inside: ${name} }] }\n` }),
        small({ more: `measured: [{ band: ${name}, across: [9, 9, 9], down: [9, 9, 9] }]\n` }),
      ])
        expect(problemsOf(text).length, text).toBe(1)
    },
  )

  it('shows nothing that a terminal would act on', () => {
    const text = `${small({ more: 'title: "a\\u001b[31mred\\u202e"\n' })}"\\u001b[2J": 1\nunits: "\\u009b"\n`
    expect(problemsOf(text)).toHaveLength(3)
    for (const { at, message, hint = '' } of problemsOf(text))
      expect(at + message + hint).not.toMatch(/\p{Cc}|\u202e/u)
  })

  it.each(['مرسى', 'לחיצה', '港', 'Ünïcode', '🐚', "O'Hara's"])('is not %s', (name) => {
    expect(problemsOf(small({ band: `name: "${name}", width: 2`, more: `title: "${name}"\n` }))).toEqual([])
  })
})
