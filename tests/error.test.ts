import { describe, expect, it } from 'vitest'
import { invariant, PlanError } from '../src/error.ts'

const problem = (at: string, message: string) => ({ code: 'plan/value', at, message })

describe('an input that cannot be planned', () => {
  it('tells every problem in a line, with its place if it has one', () => {
    const error = new PlanError([problem('bands[0]', 'is wide'), problem('', 'is empty')])
    expect(error.message).toBe('bands[0]: is wide\nis empty')
    expect(error.name).toBe('PlanError')
    expect(error.problems).toHaveLength(2)
    expect(error).toBeInstanceOf(Error)
  })

  it('has the code of its first problem', () => {
    expect(new PlanError({ ...problem('', 'x'), code: 'plan/first' }).code).toBe('plan/first')
    expect(new PlanError([]).code).toBe('plan/unknown')
  })
})

it('what the program relies on is our bug where it does not hold', () => {
  expect(() => invariant(0, 'the needle is down')).toThrow('broken invariant: the needle is down')
  expect(() => invariant('yes', 'x')).not.toThrow()
})
