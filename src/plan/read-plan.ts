import { PlanError, type Problem } from '../error.ts'
import { LENGTH_UNITS, type LengthUnit } from '../units.ts'
import type { Catalog } from './catalog.ts'
import { checkShape, valueAt } from './check-shape.ts'
import { Entry } from './entry.ts'
import { parseYaml } from './parse-yaml.ts'
import type { Plan } from './plan.ts'
import { byPosition, Problems, pathOf } from './problems.ts'
import { settlePlan } from './settle-plan.ts'

export interface PlanRead {
  readonly plan: Plan
  /** What can be planned but deserves a second look. */
  readonly warnings: readonly Problem[]
  /** Gives a problem that is found later its line and column, by the place it names. */
  locate(problem: Problem): Problem
}

/**
 * Reads a plan file.
 *
 * @param text     YAML or JSON
 * @param catalog  the fillers, corner motifs and units that a plan may name
 * @throws PlanError with every problem of the file at once, each with line, column, key, value and what is allowed
 */
export function readPlan(text: string, catalog: Catalog): PlanRead {
  const { data, locate, twins } = parseYaml(text)
  const problems = new Problems()
  const warnings = new Problems()
  const shaped = checkShape(data, problems)
  const plan = settlePlan(new Entry(shaped, [], { units: unitsOf(shaped), catalog, problems, warnings }))
  const found = [...twins, ...problems.list(locate)].sort(byPosition)
  if (found.length > 0) throw new PlanError(found)
  return {
    plan,
    warnings: warnings.list(locate),
    locate: (problem) => ({ ...problem, position: locate(pathOf(problem.at), 'value') }),
  }
}

const unitsOf = (data: unknown): LengthUnit =>
  LENGTH_UNITS.find((unit) => unit === valueAt(data, ['units'])) ?? 'in'
