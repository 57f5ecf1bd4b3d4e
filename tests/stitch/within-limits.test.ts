import { describe, expect, it } from 'vitest'
import { assertWithin, type Limit } from '../../src/stitch/within-limits.ts'
import { refusalsOf } from '../support/refusals.ts'

const limit = (value: number, more: Partial<Limit> = {}): Limit => ({
  at: 'thread.tail',
  value,
  min: 2,
  max: 9,
  unit: 'mm',
  ...more,
})
const refused = (...limits: Limit[]) => refusalsOf(() => assertWithin('thread/setting', limits))

describe('a number with limits', () => {
  it.each([2, 2.5, 9])('may be %d: both limits are allowed', (value) => {
    expect(refused(limit(value))).toEqual([])
  })

  it.each([1.999, 9.001, -5, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    'may not be %d',
    (value) => {
      expect(refused(limit(value))).toEqual([
        `thread/setting thread.tail: ${value} mm is not allowed; it may be 2 to 9 mm`,
      ])
    },
  )

  it('that has no greatest is told its least alone, and must be finite', () => {
    const open = { max: Number.POSITIVE_INFINITY }
    expect(refused(limit(1e300, open))).toEqual([])
    expect(refused(limit(1, open))).toEqual([
      'thread/setting thread.tail: 1 mm is not allowed; it may be at least 2 mm',
    ])
    expect(refused(limit(Number.POSITIVE_INFINITY, open))).toHaveLength(1)
  })

  it('is told without a gap where it is counted in nothing', () => {
    expect(refused(limit(1, { unit: '' }))).toEqual([
      'thread/setting thread.tail: 1 is not allowed; it may be 2 to 9 ',
    ])
  })

  it('is refused with all others that are wrong, in their order, and only those', () => {
    const found = refused(limit(0, { at: 'a' }), limit(5, { at: 'b' }), limit(10, { at: 'c' }))
    expect(found.map((text) => text.split(':')[0])).toEqual(['thread/setting a', 'thread/setting c'])
    expect(refused()).toEqual([])
  })
})
