import type { Problem } from '../error.ts'
import { explainIssue } from './explain-issue.ts'
import { mendData } from './mend-data.ts'
import { type Parsed, parseYaml } from './parse-yaml.ts'
import type { Plan } from './plan.ts'
import { Problems } from './problems.ts'
import { type PlanFile, planFormat } from './schema.ts'
import { type Catalog, settlePlan } from './settle-plan.ts'

export interface PlanRead {
  readonly plan: Plan
  /** The plan as it was written, in its own units and without defaults. */
  readonly file: PlanFile
  /** What can be planned but deserves a second look. */
  readonly warnings: readonly Problem[]
}

/**
 * Reads a plan file.
 *
 * @param text     YAML or JSON
 * @param catalog  the fillers that a plan may name
 * @throws PlanError with every problem of the file at once, each with line, column, key, value and what is allowed
 */
export function readPlan(text: string, catalog: Catalog): PlanRead {
  const parsed = parseYaml(text)
  const file = checkForm(parsed, catalog)
  const [problems, warnings] = [new Problems(), new Problems()]
  const plan = settlePlan(file, { catalog, problems, warnings })
  problems.throwIfAny(parsed)
  return { plan, file, warnings: warnings.list(parsed) }
}

/** The file if its form is right; otherwise what is wrong with the form, and with the meaning of all the rest. */
function checkForm(parsed: Parsed, catalog: Catalog): PlanFile {
  const result = planFormat.safeParse(parsed.data)
  if (result.success) return result.data
  const problems = new Problems()
  for (const issue of result.error.issues) explainIssue(issue, { data: parsed.data, problems })
  const mended = mendData(parsed.data)
  if (mended) {
    const rest = new Problems()
    settlePlan(mended, { catalog, problems: rest, warnings: new Problems() })
    problems.addElsewhere(rest)
  }
  problems.throwIfAny(parsed)
  throw new Error('a file whose form is wrong has a problem')
}
