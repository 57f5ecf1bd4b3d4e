import { describe, expect, it } from 'vitest'
import { Entry } from '../../src/plan/entry.ts'
import { LIMITS } from '../../src/plan/limits.ts'
import { Problems } from '../../src/plan/problems.ts'
import type { LengthUnit } from '../../src/units.ts'

const nowhere = () => ({ line: 1, column: 1 })

/** An entry of a value, and what was found wrong with it so far. */
function entryOf(value: unknown, units: LengthUnit = 'in') {
  const [problems, warnings] = [new Problems(), new Problems()]
  const entry = new Entry(value, ['x'], { units, catalog: { motifs: {} }, problems, warnings })
  const told = (list: Problems) =>
    list
      .list(nowhere)
      .map(({ code, at, message, hint }) => `${code} ${at}: ${message}${hint ? ` (${hint})` : ''}`)
  return { entry, refusals: () => told(problems), warnings: () => told(warnings) }
}

/** What reading a value gives, and what it is refused for. */
function read(value: unknown, how: (entry: Entry) => unknown, units: LengthUnit = 'in'): unknown[] {
  const { entry, refusals } = entryOf(value, units)
  return [how(entry), ...refusals()]
}

describe('a place in the plan', () => {
  it('leads to what stands at a key or a position, with its path', () => {
    const { entry } = entryOf({ a: [7, 8], toString: undefined })
    expect(entry.at('a').at(1)).toMatchObject({ value: 8, path: ['x', 'a', 1] })
    expect(entry.at('b')).toMatchObject({ value: undefined, path: ['x', 'b'] })
    expect(entry.at('constructor').value).toBeUndefined()
    expect([entry.has('a'), entry.has('b'), entry.has('constructor'), entry.has('toString')]).toEqual([
      true,
      false,
      false,
      true,
    ])
    expect(entryOf('text').entry.at('length').value).toBeUndefined()
  })

  it('tells what it holds', () => {
    const kinds = [{ k: 1 }, [4, 5], 'text', null, undefined, 0].map((value) => {
      const { entry } = entryOf(value)
      return [
        entry.isGiven,
        entry.isGroup,
        entry.keys(),
        entry.items().map((item) => item.value),
        entry.text(),
      ]
    })
    expect(kinds).toEqual([
      [true, true, ['k'], [], undefined],
      [true, true, ['0', '1'], [4, 5], undefined],
      [true, false, [], [], 'text'],
      [true, false, [], [], undefined],
      [false, false, [], [], undefined],
      [true, false, [], [], undefined],
    ])
    expect(entryOf([4]).entry.items()[0]!.path).toEqual(['x', 0])
  })

  it('notes what is wrong, and what is worth a warning, apart', () => {
    const { entry, refusals, warnings } = entryOf('wvae')
    expect(entry.refuseName('plan/name', ['wave', 'rope'])).toBeUndefined()
    entry.warn({ code: 'plan/w', message: 'mind' })
    expect(refusals()).toEqual(['plan/name x: is "wvae"; allowed: wave, rope (did you mean wave?)'])
    expect(warnings()).toEqual(['plan/w x: mind'])
  })

  it('may know more than the plan did', () => {
    const known = { motifs: {}, cornerMotifs: ['spiral'] }
    const { entry } = entryOf({ a: 1 })
    expect(entry.knowing(known).at('a').desk.catalog).toBe(known)
    expect(entry.knowing(known)).toMatchObject({ value: { a: 1 }, path: ['x'] })
  })
})

describe('a length', () => {
  const length = (value: unknown, bounds = {}, units: LengthUnit = 'in') =>
    read(value, (entry) => entry.length({ fallback: 'none', ...bounds }), units)

  it('is in the plan’s unit or its own, mm', () => {
    expect(length(2)).toEqual([50.8])
    expect(length('2 cm')).toEqual([20])
    expect(length(2, {}, 'mm')).toEqual([2])
    expect(length(undefined)).toEqual(['none'])
  })

  it('may be what lies at its limits, a rounding allowed', () => {
    const bounds = { least: 10, greatest: 20 }
    expect(length(10, bounds, 'mm')).toEqual([10])
    expect(length(20.0000005, bounds, 'mm')).toEqual([20.000001])
    expect(length(LIMITS.greatest, {}, 'mm')).toEqual([LIMITS.greatest])
    expect(length(9.99, bounds, 'mm')).toEqual(['none', 'plan/length x: is 9.99; allowed: 10 mm to 20 mm'])
    expect(length(20.01, bounds, 'mm')).toEqual(['none', 'plan/length x: is 20.01; allowed: 10 mm to 20 mm'])
    expect(length(0.5, {}, 'mm')).toHaveLength(2)
  })

  it('that is none is told what one looks like, and a comma what it should be', () => {
    const forms = 'expected a number, or a length such as 2.5 cm, 10 mm, 1 1/2 in, 3/4, 1.5"'
    expect(length('wide')).toEqual(['none', `plan/length x: is "wide"; ${forms}`])
    expect(length([2])).toEqual(['none', `plan/length x: is a list; ${forms}`])
    expect(length(' 2,5 cm')).toEqual([
      'none',
      `plan/length x: is " 2,5 cm"; ${forms} (write 2.5 cm, with a point)`,
    ])
    expect(length('2,5')[1]).toContain('write 2.5, with a point')
    expect(length('a 2,5')[1]).not.toContain('with a point')
  })
})

describe('a length of thread', () => {
  const metres = (value: unknown, bounds = {}) =>
    read(value, (entry) => entry.metres({ fallback: 'none', ...bounds }))

  it('is told in metres or yards', () => {
    expect(metres('75 m')).toEqual([75])
    expect((metres('100 yd')[0] as number).toFixed(6)).toBe('91.440000')
    expect(metres(undefined)).toEqual(['none'])
    expect(metres('5 m', { least: 5, greatest: 5 })).toEqual([5])
  })

  it('is refused outside its limits; a bare number is told its unit', () => {
    const bounds = { least: 5, greatest: 2000 }
    expect(metres('4 m', bounds)).toEqual(['none', 'plan/length x: is "4 m"; allowed: 5 m to 2000 m'])
    expect(metres('2001 m', bounds)).toHaveLength(2)
    expect(metres('long', bounds)).toHaveLength(2)
    expect(metres(true, bounds)).toEqual(['none', 'plan/length x: is true; allowed: 5 m to 2000 m'])
    expect(metres(75, bounds)).toEqual([
      'none',
      'plan/length x: is 75; allowed: 5 m to 2000 m (without a unit it is 75 in; write 75 m or 75 yd)',
    ])
  })
})

describe('a number, a share, a colour and a word', () => {
  it('a number lies within its limits, and is whole where it must be', () => {
    const number = (value: unknown, bounds = {}) =>
      read(value, (entry) => entry.number({ fallback: 'none', least: 1, greatest: 9, ...bounds }))
    expect([number(1), number(9), number(2.5), number(undefined)]).toEqual([[1], [9], [2.5], ['none']])
    expect(number(0.9)).toEqual(['none', 'plan/number x: is 0.9; allowed: 1 to 9'])
    expect(number(9.1)).toHaveLength(2)
    expect(number('5')).toEqual(['none', 'plan/number x: is "5"; allowed: 1 to 9'])
    expect(number(3, { whole: true })).toEqual([3])
    expect(number(2.5, { whole: true })).toEqual([
      'none',
      'plan/number x: is 2.5; allowed: whole numbers from 1 to 9',
    ])
    expect(Object.is(read(-0, (entry) => entry.number({ fallback: 7 }))[0], 0)).toBe(true)
    expect(read(-1, (entry) => entry.number({ fallback: 7 }))).toHaveLength(2)
  })

  it('a share is a number up to one, or percent', () => {
    const share = (value: unknown, bounds = {}) =>
      read(value, (entry) => entry.share({ fallback: 'none', ...bounds }))
    expect([share(0.6), share('60 %'), share(' 12.5% '), share(0), share(1), share(undefined)]).toEqual([
      [0.6],
      [0.6],
      [0.125],
      [0],
      [1],
      ['none'],
    ])
    expect(share(60)).toEqual([
      'none',
      'plan/share x: is 60; allowed: 0 to 1, or 0 % to 100 % (did you mean 60 %?)',
    ])
    expect(share(101)).toEqual(['none', 'plan/share x: is 101; allowed: 0 to 1, or 0 % to 100 %'])
    expect(share(100)[1]).toContain('did you mean 100 %?')
    expect(share('120 %')).toEqual(['none', 'plan/share x: is "120 %"; allowed: 0 to 1, or 0 % to 100 %'])
    expect(share('half')).toHaveLength(2)
    expect(share(0.6, { greatest: 0.5 })).toEqual([
      'none',
      'plan/share x: is 0.6; allowed: 0 to 0.5, or 0 % to 50 %',
    ])
    expect(share(0.1, { least: 0.2 })).toHaveLength(2)
  })

  it('a colour is any of CSS', () => {
    const colour = (value: unknown) => read(value, (entry) => entry.colour('none'))
    expect([colour('navy'), colour(undefined)]).toEqual([['#000080'], ['none']])
    const expected = 'expected a CSS colour such as #3f6f86, navy or hsl(200 40% 40%)'
    expect(colour('sea')).toEqual(['none', `plan/colour x: is "sea"; ${expected}`])
    expect(colour(3)).toEqual(['none', `plan/colour x: is 3; ${expected}`])
  })

  it('a word is one of those that are known, or the usual one', () => {
    const word = (value: unknown) => read(value, (entry) => entry.choice(['areas', 'laps'], 'areas'))
    expect([word('laps'), word('rows'), word(undefined)]).toEqual([['laps'], ['areas'], ['areas']])
  })
})
