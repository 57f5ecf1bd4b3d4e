import { PlanError, type Problem } from '../error.ts'

/** A number that was asked for and what it may be. */
export interface Limit {
  /** Where it stands in the plan or the settings: `thread.bobbin`. */
  readonly at: string
  readonly value: number
  readonly min: number
  readonly max: number
  /** What it is counted in, for the message: `mm`. */
  readonly unit: string
}

/**
 * Refuses settings that make no sense, all at once.
 *
 * @param code    `area/problem` of what is refused
 * @param limits  the numbers and their least and greatest values, both allowed
 * @throws PlanError with one problem for each number that is not finite or outside its limits
 */
export function assertWithin(code: string, limits: readonly Limit[]): void {
  const problems = limits.filter(isOutside).map((limit): Problem => describe(code, limit))
  if (problems.length > 0) throw new PlanError(problems)
}

const isOutside = ({ value, min, max }: Limit): boolean =>
  !(Number.isFinite(value) && value >= min && value <= max)

function describe(code: string, { at, value, min, max, unit }: Limit): Problem {
  const allowed = max === Infinity ? `at least ${min}` : `${min} to ${max}`
  return {
    code,
    at,
    message: `${value} ${unit} is not allowed; it may be ${allowed} ${unit}`.replace(/ +/g, ' '),
  }
}
