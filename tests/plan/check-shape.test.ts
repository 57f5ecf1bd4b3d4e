import { describe, expect, test } from 'vitest'
import { checkShape, valueAt } from '../../src/plan/check-shape.ts'
import { Problems } from '../../src/plan/problems.ts'

const SOUND = { centre: { width: 9, height: 9 }, bands: [{ width: 2 }] }

/** What is told of a file's data, and what is left of it. */
function checked(data: Readonly<Record<string, unknown>>) {
  const problems = new Problems()
  const left = checkShape(data, problems) as Record<string, unknown>
  const told = problems
    .list(() => ({ line: 1, column: 1 }))
    .map(({ at, code, message, hint }) => [at, code, message, ...(hint ? [hint] : [])])
  return { left, told }
}

const band = (keys: object) => ({ ...SOUND, bands: [{ width: 2, ...keys }] })

describe('the shape of a plan', () => {
  test('is left as it is where nothing is wrong', () => {
    const { left, told } = checked(SOUND)
    expect(told).toEqual([])
    expect(left).toBe(SOUND)
  })

  test('is left without what is wrong, and with all else; the file itself stays', () => {
    const data = { ...SOUND, seed: 'x', machine: { speed: 'fast', kind: 'domestic' }, wind: 3 }
    const { left, told } = checked(data)
    expect(told.map(([at]) => at).sort()).toEqual(['machine.speed', 'seed', 'wind'])
    expect(left).toEqual({ ...SOUND, seed: undefined, machine: { speed: undefined, kind: 'domestic' } })
    expect(Object.keys(left)).toEqual(['centre', 'bands', 'seed', 'machine'])
    expect(data).toMatchObject({ seed: 'x', wind: 3 })
    left.seed = 5
    expect(left.seed).toBe(5)
  })

  test('has a place for a missing value as well', () => {
    const { left, told } = checked({ bands: SOUND.bands })
    expect(told).toEqual([['centre', 'plan/missing', expect.stringMatching(/^is missing; expected/)]])
    expect(Object.hasOwn(left, 'centre')).toBe(true)
    expect(left.centre).toBeUndefined()
  })

  test('takes unknown keys out of the group they stand in', () => {
    const { left } = checked(band({ sides: { top: 'none', up: 'none' }, depth: 3 }))
    expect(left.bands).toEqual([{ width: 2, sides: { top: 'none' } }])
  })
})

describe('what is told', () => {
  test('of an unknown key is what is allowed there, with the one that was meant', () => {
    expect(checked({ ...SOUND, seeds: 1 }).told).toEqual([
      [
        'seeds',
        'plan/unknown-key',
        expect.stringMatching(/^unknown key "seeds"; allowed: /),
        'did you mean seed?',
      ],
    ])
    const [[, , message]] = checked({ ...SOUND, seeds: 1 }).told as [string[]]
    const allowed = message!.replace(/^.*allowed: /, '').split(', ')
    expect(allowed).toEqual(expect.arrayContaining(['centre', 'bands', 'seed']))
    // It may stand there, for editors, but says nothing about a quilt.
    expect(allowed).not.toContain('$schema')
    expect(new Set(allowed).size).toBe(allowed.length)
  })

  test('of an unknown key inside of a form are the keys of that form', () => {
    const { told } = checked({ ...SOUND, route: { start: { band: 'a', sid: 'top' } } })
    expect(told.map(([at, , message]) => [at, message]).sort()).toEqual([
      ['route.start.sid', 'unknown key "sid"; allowed: band, side'],
      ['route.start.side', expect.stringMatching(/^is missing; expected one of top, right, bottom, left/)],
    ])
    expect(checked({ ...SOUND, avoid: [{ circle: { at: [1, 1], radius: 1, colour: 'red' } }] }).told).toEqual(
      [['avoid[0].circle.colour', 'plan/unknown-key', 'unknown key "colour"; allowed: at, radius']],
    )
  })

  test('of a group that could be one of several forms is what the form that fits best lacks', () => {
    expect(checked({ ...SOUND, route: { start: { band: 'a', side: 5 } } }).told).toEqual([
      ['route.start.side', expect.any(String), expect.stringMatching(/^is 5; /)],
    ])
    expect(checked(band({ width: { top: 1, right: 1, bottom: 1 } })).told).toEqual([
      [
        'bands[0].width.left',
        'plan/missing',
        expect.stringMatching(/^is missing; expected a number, or a length/),
      ],
    ])
  })

  test('of text that is too long is its length, though it could be of several forms', () => {
    const long = 'x'.repeat(100_000)
    const [[at, code, message]] = checked({ ...SOUND, thread: { weight: long } }).told as [string[]]
    expect([at, code]).toEqual(['thread.weight', 'plan/size'])
    expect(message).toMatch(/^has 100000 characters; allowed: at most \d+$/)
  })

  test('of a number written as text is to leave out the quotes', () => {
    const hints = (value: unknown) =>
      checked({ ...SOUND, machine: { speed: value } }).told.map(([, , , hint]) => hint)
    expect(hints(' 600 ')).toEqual(['write 600 without quotes'])
    for (const other of ['fast', '', '  ', '1e999', true, null, [5]])
      expect(hints(other)).toEqual([undefined])
    // Where no number belongs there is nothing to write without quotes.
    expect(checked({ ...SOUND, machine: '5' }).told).toEqual([
      ['machine', 'plan/value', 'is "5"; expected keys and values'],
    ])
    expect(checked({ ...SOUND, seed: '5' }).told[0]!.slice(2)).toEqual([
      'is "5"; expected a number',
      'write 5 without quotes',
    ])
  })

  test('of a colour that is empty is to put it in quotes, wherever a colour stands', () => {
    const hint = 'put a colour that begins with # in quotes'
    const hintsOf = (data: Readonly<Record<string, unknown>>) =>
      checked(data).told.map(([at, , , told]) => [at, told])
    expect(hintsOf(band({ fabric: null }))).toEqual([['bands[0].fabric', hint]])
    expect(hintsOf(band({ thread: null }))).toEqual([['bands[0].thread', hint]])
    expect(hintsOf({ ...SOUND, bindingFabric: null })).toEqual([['bindingFabric', hint]])
    expect(hintsOf({ ...SOUND, thread: { colour: null } })).toEqual([['thread.colour', hint]])
    expect(hintsOf(band({ pieced: { unit: 'squares', fabrics: { dark: null } } }))).toEqual([
      ['bands[0].pieced.fabrics.dark', hint],
    ])
    expect(hintsOf({ ...SOUND, seed: null })).toEqual([['seed', undefined]])
    expect(hintsOf(band({ fabric: 5 }))).toEqual([['bands[0].fabric', undefined]])
  })

  test('of a list counts its entries, of text its characters, of a number is its value', () => {
    const messages = (data: Readonly<Record<string, unknown>>) =>
      checked(data).told.map(([, , message]) => message)
    expect(messages(band({ fabric: [] }))).toEqual(['has 0 entries; allowed: at least 1'])
    expect(messages(band({ name: '' }))).toEqual(['has 0 characters; allowed: at least 1'])
    expect(messages({ ...SOUND, seed: -1 })).toEqual(['is -1; allowed: at least 0'])
    expect(messages({ ...SOUND, machine: { reach: [9] } })).toEqual([
      'has 1 entry; expected two lengths: [width, height]',
    ])
  })

  test('of a missing word are the words to choose from', () => {
    expect(checked({ ...SOUND, route: { start: { band: 'a' } } }).told).toEqual([
      [
        'route.start.side',
        'plan/missing',
        expect.stringMatching(/^is missing; expected one of top, right, /),
      ],
    ])
  })
})

describe('the value at a path', () => {
  test.each([
    [['a', 'b', 1], 2],
    [['a', 'c'], undefined],
    [['a', 'b', 1, 'x'], undefined],
    [['n', 'x'], undefined],
    [['t', 'length'], undefined],
    [['a', 'constructor'], undefined],
    [[], { a: { b: [1, 2] }, n: null, t: 'text' }],
  ] as const)('%j is what stands there, if anything of its own does', (path, value) => {
    expect(valueAt({ a: { b: [1, 2] }, n: null, t: 'text' }, path)).toEqual(value)
  })
})
