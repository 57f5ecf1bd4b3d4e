import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError, type Problem } from '../../src/error.ts'
import type { Plan } from '../../src/plan/plan.ts'
import { type PlanRead, readPlan } from '../../src/plan/read-plan.ts'

/** All that plans may name. */
export const CATALOG = catalogOf(LIBRARY)

export const read = (text: string): PlanRead => readPlan(text, CATALOG)
export const planOf = (file: unknown): Plan => read(JSON.stringify(file)).plan

/** The problems of a file; none if it can be read. Anything but a PlanError fails the test. */
export function problemsOf(text: string): readonly Problem[] {
  try {
    read(text)
    return []
  } catch (error) {
    if (error instanceof PlanError) return error.problems
    throw error
  }
}

/** `3:12 bands[0].width plan/length: message (hint)`. */
export const complaints = (text: string): string[] =>
  problemsOf(text).map(({ code, at, message, hint, position }) => {
    const place = position ? `${position.line}:${position.column} ` : ''
    return `${place}${at} ${code}: ${message}${hint ? ` (${hint})` : ''}`
  })

/** A plan with one band, to which a test adds what it is about. */
export const small = ({ band = 'width: 2, filler: scallop', more = '' } = {}): string =>
  `centre: { width: 20, height: 20 }\nbands:\n  - { ${band} }\n${more}`
