import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIMITS } from '../../src/plan/limits.ts'
import { byPosition, listNames, Problems, pathOf, pathText, show } from '../../src/plan/problems.ts'

const fault = (message: string) => ({ code: 'plan/value', message })

describe('the place of a problem', () => {
  it.each([
    [[], ''],
    [['bands'], 'bands'],
    [['bands', 2, 'width', 'top'], 'bands[2].width.top'],
    [['motifs', 'Sea Gull', 'path'], 'motifs["Sea Gull"].path'],
    [['größe', 'a-b_9'], 'größe.a-b_9'],
    [[3], '[3]'],
    [['a.b'], '["a.b"]'],
    [['x', ''], 'x[""]'],
    [['x', 'say "ah"'], 'x["say \\"ah\\""]'],
  ] as const)('%j is written %s', (path, text) => {
    expect(pathText(path)).toBe(text)
  })

  it('is read back as it was, but for very long keys', () => {
    const step = fc.oneof(fc.nat(50), fc.string({ minLength: 1, maxLength: 20 }))
    fc.assert(
      fc.property(fc.array(step, { maxLength: 5 }), (path) => {
        expect(pathOf(pathText(path))).toEqual(path)
      }),
      { seed: 1, numRuns: 200 },
    )
    expect(pathText(['k'.repeat(200)])).toHaveLength(200)
    expect(pathText([' '.repeat(200)])).toHaveLength(84)
  })

  it('shows nothing that a terminal would act on', () => {
    expect(pathText(['a\u001b[31m'])).toBe('["a\\u001b[31m"]')
    expect(pathText(['\u202e'])).toBe('["\\u202e"]')
  })
})

describe('a value in a message', () => {
  it.each([
    ['wave', '"wave"'],
    ['', '""'],
    ['x'.repeat(40), `"${'x'.repeat(40)}"`],
    ['x'.repeat(41), `"${'x'.repeat(40)}..."`],
    ['a\nb', '"a\\u000ab"'],
    [null, 'empty'],
    [undefined, 'missing'],
    [[1, 2], 'a list'],
    [{ a: 1 }, 'a group of keys'],
    [0, '0'],
    [Number.NaN, 'NaN'],
    [true, 'true'],
  ])('%j is shown as %s', (value, text) => {
    expect(show(value)).toBe(text)
  })
})

describe('names in a sentence', () => {
  const names = (count: number) => Array.from({ length: count }, (_, i) => `n${i}`)

  it('are all listed up to forty, and of more the first forty', () => {
    expect(listNames([])).toBe('none are known')
    expect(listNames(['a', 'b'])).toBe('a, b')
    expect(listNames(names(40))).toBe(names(40).join(', '))
    expect(listNames(names(41))).toBe(`${names(40).join(', ')} and 1 more`)
    expect(listNames(names(45))).toContain('n39 and 5 more')
  })
})

describe('problems that are collected', () => {
  const locate = (path: readonly (string | number)[], of: string) => ({
    line: Number(path[0]),
    column: of === 'key' ? 1 : 9,
  })

  it('are told in the order of the file, of the key or of the value', () => {
    const problems = new Problems()
    problems.add([7], fault('late'))
    problems.add([2], fault('value'))
    problems.add([2], { ...fault('key'), of: 'key' })
    expect(problems.list(locate)).toEqual([
      { code: 'plan/value', message: 'key', at: '[2]', position: { line: 2, column: 1 } },
      { code: 'plan/value', message: 'value', at: '[2]', position: { line: 2, column: 9 } },
      { code: 'plan/value', message: 'late', at: '[7]', position: { line: 7, column: 9 } },
    ])
  })

  it('carry a hint if there is one, as text or sought', () => {
    const problems = new Problems()
    problems.add([1], { ...fault('a'), hint: 'given' })
    problems.add([2], { ...fault('b'), hint: () => 'sought' })
    problems.add([3], { ...fault('c'), hint: () => undefined })
    problems.add([4], { ...fault('d'), hint: undefined })
    const hints = problems.list(locate).map((problem) => ('hint' in problem ? problem.hint : 'none'))
    expect(hints).toEqual(['given', 'sought', 'none', 'none'])
  })

  it('are kept up to a number, with hints that take a search for the first few', () => {
    const problems = new Problems()
    let sought = 0
    for (let i = 0; i < LIMITS.problems + 5; i++)
      problems.add([i], {
        ...fault('x'),
        hint: () => {
          sought++
          return 'near'
        },
      })
    const list = problems.list(locate)
    expect(list).toHaveLength(LIMITS.problems)
    expect(sought).toBe(LIMITS.hints)
    expect(list.filter(({ hint }) => hint === 'near')).toHaveLength(LIMITS.hints)
  })

  it('are ordered by line, then by column; without a place they come first', () => {
    const at = (line?: number, column = 1) => ({
      ...fault('x'),
      at: '',
      ...(line !== undefined && { position: { line, column } }),
    })
    const list = [at(3, 1), at(1, 8), at(), at(1, 2)]
    expect([...list].sort(byPosition)).toEqual([at(), at(1, 2), at(1, 8), at(3, 1)])
    expect(byPosition(at(), at())).toBe(0)
    expect(byPosition(at(1, 2), at())).toBeGreaterThan(0)
  })
})
