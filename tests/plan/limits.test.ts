import { describe, expect, it } from 'vitest'
import { LIMITS } from '../../src/plan/limits.ts'
import { complaints, problemsOf, read, small } from './complaints.ts'

const times = (count: number, text: (i: number) => string): string =>
  Array.from({ length: count }, (_, i) => text(i)).join('')

/** Codes of the problems of a file that has to be refused within the five seconds that any input may take. */
function quickCodes(text: string): string[] {
  const before = performance.now()
  const codes = [...new Set(problemsOf(text).map((p) => p.code))]
  expect(performance.now() - before).toBeLessThan(5000)
  return codes
}

const fill = (text: string): string => text.repeat(Math.floor((LIMITS.fileBytes - 200) / text.length))

describe('a file that asks for too much is refused before work starts', () => {
  it.each([
    ['too many characters', 'x'.repeat(LIMITS.fileBytes + 1), 'plan/too-large'],
    ['brackets in brackets', `a: ${fill('[')}`, 'plan/too-deep'],
    ['brackets whose closing stands in comments', fill('[ #]\n'), 'plan/too-deep'],
    ['lists in lists', `a:\n ${fill('- ')}`, 'plan/too-deep'],
    ['keys in keys', times(450, (i) => `${' '.repeat(i)}a:\n`), 'plan/too-deep'],
    ['keys of keys', fill('? '), 'plan/too-deep'],
    ['a long list', `a: [${fill('b,')}]`, 'plan/too-large'],
    ['a great many keys', times(9000, (i) => `k${i}: 1\n`), 'plan/too-large'],
    ['a great many keys in one line', `a: {${times(9000, (i) => `k${i}: 1,`)}}`, 'plan/too-large'],
    ['the same key over and over', fill('a: 1\n'), 'plan/too-large'],
    ['aliases of aliases', 'a: &a [x,x]\nb: &b [*a,*a]\nc: [*b,*b]\n', 'plan/aliases'],
    ['an alias over and over', `a: &a 1\nb: [${'*a,'.repeat(60)}]`, 'plan/aliases'],
    ['an alias of something large', `a: &a [${'1,'.repeat(600)}]\nb: *a\n`, 'plan/aliases'],
  ])('%s', (_, text, code) => {
    expect(quickCodes(text)).toEqual([code])
  })

  it.each([
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

  it('takes as many bands as are allowed, and no more', () => {
    const bands = (count: number) =>
      `units: mm\ncentre: { width: 100, height: 100 }\nbands: [${'{ width: 30 },'.repeat(count)}]`
    expect(read(bands(LIMITS.bands)).plan.bands).toHaveLength(LIMITS.bands)
    expect(complaints(bands(LIMITS.bands + 1))).toMatchInlineSnapshot(`
      [
        "3:8 bands plan/value: is a list; expected at most 200 entries: the borders, from the inside out",
      ]
    `)
  })

  it('tells at most a hundred problems', () => {
    expect(problemsOf(small({ more: times(900, (i) => `k${i}: 1\n`) }))).toHaveLength(LIMITS.problems)
  })
})

describe('a size out of bounds', () => {
  it.each([
    ['.nan', 'plan/value'],
    ['.inf', 'plan/value'],
    ['-.inf', 'plan/value'],
    ['1e308', 'plan/length'],
    ['1e-300', 'plan/length'],
    ['-0', 'plan/length'],
    ['-5', 'plan/length'],
    ['99999999', 'plan/length'],
    ['true', 'plan/value'],
    ['[1]', 'plan/value'],
  ])('%s is refused with its value', (size, code) => {
    const problems = [
      ...problemsOf(`centre: { width: ${size}, height: 20 }\nbands: [{ width: 2 }]`),
      ...problemsOf(small({ band: `width: ${size}` })),
      ...problemsOf(small({ band: `cut: ${size}` })),
      ...problemsOf(small({ more: `machine: { reach: [12, ${size}] }` })),
    ]
    expect(problems.map((p) => p.code)).toEqual([code, code, code, code])
    for (const { message, position } of problems) {
      expect(message).toMatch(/^is .+; /)
      expect(position).toBeDefined()
    }
  })

  it('is told in the units of the plan', () => {
    const message = (units: string) =>
      problemsOf(`units: ${units}\ncentre: { width: 1e6, height: 20 }\nbands: [{ width: 20 mm }]`)[0]!.message
    expect(message('mm')).toBe('is 1000000; allowed: 1 mm to 10000 mm')
    expect(message('cm')).toBe('is 1000000; allowed: 0.1 cm to 1000 cm')
  })

  it('adds up: a quilt of allowed parts may be too large as a whole', () => {
    const text = 'units: mm\ncentre: { width: 9000, height: 100 }\nbands: [{ width: 9000 }]'
    expect(complaints(text)).toMatchInlineSnapshot(`
      [
        "3:8 bands plan/quilt-size: the quilt is 27010 mm by 18110 mm; allowed: at most 20000 mm",
      ]
    `)
  })

  it.each(['-0', '0'])('a binding and a seed may be %s', (zero) => {
    const { plan } = read(small({ more: `binding: ${zero}\nseed: ${zero}\n` }))
    expect([plan.binding, plan.seed]).toEqual([0, 0])
  })
})
