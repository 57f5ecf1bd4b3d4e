import type { Problem } from '../error.ts'
import type { Plan } from './plan.ts'

/**
 * What a plan asks for and the planner does not do. It is refused rather than left out in silence: a line that ignores a
 * wish is worse than none.
 */
export function notPlanned(plan: Plan): Problem[] {
  const refuse = (at: string, what: string): Problem => ({
    code: 'plan/not-planned',
    at,
    message: `${what}; the planner does not do that, leave it out`,
  })
  return [
    ...plan.bands.flatMap((band, i) => [
      ...(band.thread !== undefined
        ? [refuse(`bands[${i}].thread`, 'asks for a line of its own in another thread')]
        : []),
    ]),
  ]
}
