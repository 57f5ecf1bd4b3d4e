import type * as z from 'zod'
import type { Problem } from '../error.ts'
import { parseYaml } from './parse-yaml.ts'
import type { Plan } from './plan.ts'
import { type Path, Problems, show } from './problems.ts'
import { planFormat } from './schema.ts'
import { type Catalog, settlePlan } from './settle-plan.ts'
import { nearestName } from './suggest.ts'

export interface PlanRead {
  readonly plan: Plan
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
  const result = planFormat.safeParse(parsed.data)
  const problems = new Problems()
  const keys = new Set<Path>()
  if (!result.success) {
    for (const issue of result.error.issues) addIssue(issue, { data: parsed.data, problems, keys })
  }
  const positionOf = (path: Path) => (keys.has(path) ? parsed.positionOfKey(path) : parsed.positionOf(path))
  if (!result.success) {
    // What is well formed is checked as well, so that one run tells all there is to mend.
    settleWhatIsThere(parsed.data, { catalog, problems })
    problems.throwIfAny(positionOf)
  }
  const warnings = new Problems()
  const plan = settlePlan(result.data!, { catalog, problems, warnings })
  problems.throwIfAny(positionOf)
  return { plan, warnings: warnings.list(positionOf) }
}

/** Checks the values of the bands that are well formed, in a file that is not. */
function settleWhatIsThere(
  data: unknown,
  { catalog, problems }: { catalog: Catalog; problems: Problems },
): void {
  const { data: repaired } = planFormat.safeParse(
    withoutStrangers(data, planFormat.safeParse(data).error?.issues ?? []),
  )
  if (repaired) settlePlan(repaired, { catalog, problems, warnings: new Problems() })
}

/** The data without its unknown keys; anything else that is wrong stays wrong. */
function withoutStrangers(data: unknown, issues: readonly z.core.$ZodIssue[]): unknown {
  const copy: unknown = structuredClone(data)
  for (const issue of issues) {
    if (issue.code !== 'unrecognized_keys') continue
    const parent = valueAt(copy, issue.path as Path)
    if (typeof parent === 'object' && parent !== null)
      for (const key of issue.keys) delete (parent as Record<string, unknown>)[key]
  }
  return copy
}

function valueAt(data: unknown, path: Path): unknown {
  let at: unknown = data
  for (const step of path)
    at = typeof at === 'object' && at !== null ? (at as Record<string | number, unknown>)[step] : undefined
  return at
}

interface Sink {
  readonly data: unknown
  readonly problems: Problems
  readonly keys: Set<Path>
}

function addIssue(issue: z.core.$ZodIssue, sink: Sink): void {
  const path = issue.path as Path
  const value = valueAt(sink.data, path)
  switch (issue.code) {
    case 'unrecognized_keys':
      for (const key of issue.keys) addStranger(key, path, sink)
      return
    case 'invalid_union':
      addUnion(issue, sink)
      return
    case 'invalid_value':
      addChoice(issue.values.map(String), { path, value, problems: sink.problems })
      return
    default:
      sink.problems.add(
        'plan/value',
        path,
        value === undefined
          ? `missing; ${lower(issue.message)}`
          : `is ${show(value)}; ${lower(issue.message)}`,
      )
  }
}

const lower = (text: string): string =>
  text.charAt(0).toLowerCase() + text.slice(1).replace('Invalid input: ', '')

function addStranger(key: string, parent: Path, { problems, keys }: Sink): void {
  const known = keysAt(parent)
  const near = nearestName(key, known)
  const path = [...parent, key]
  keys.add(path)
  problems.add(
    'plan/unknown-key',
    path,
    `unknown key ${show(key)}; allowed: ${known.join(', ')}`,
    near && `did you mean ${near}?`,
  )
}

function addChoice(
  known: readonly string[],
  { path, value, problems }: { path: Path; value: unknown; problems: Problems },
): void {
  const near = typeof value === 'string' ? nearestName(value, known) : undefined
  problems.add(
    'plan/choice',
    path,
    `${value === undefined ? 'missing' : `is ${show(value)}`}; allowed: ${known.join(', ')}`,
    near && `did you mean ${near}?`,
  )
}

/** A union is answered by the branch that got furthest, or else by everything that would have done. */
function addUnion(issue: z.core.$ZodIssueInvalidUnion, sink: Sink): void {
  const path = issue.path as Path
  const value = valueAt(sink.data, path)
  const deeper = issue.errors.flat().filter((e) => e.path.length > 0 || e.code === 'unrecognized_keys')
  if (deeper.length > 0 && typeof value === 'object' && value !== null) {
    for (const inner of deeper)
      addIssue({ ...inner, path: [...path, ...inner.path] } as z.core.$ZodIssue, sink)
    return
  }
  const choices = issue.errors.flat().flatMap((e) => (e.code === 'invalid_value' ? e.values.map(String) : []))
  if (choices.length > 0) addChoice(choices, { path, value, problems: sink.problems })
  else
    sink.problems.add(
      'plan/value',
      path,
      `is ${show(value)}; ${lower(issue.message === 'Invalid input' ? 'this form is not known' : issue.message)}`,
    )
}

/** The keys that the format knows at a place. */
function keysAt(path: Path): string[] {
  let schema: unknown = planFormat
  for (const step of path)
    schema = typeof step === 'number' ? elementOf(unwrap(schema)) : shapeOf(schema)[step]
  return Object.keys(shapeOf(schema))
}

interface Inner {
  readonly def?: {
    readonly type?: string
    readonly innerType?: unknown
    readonly element?: unknown
    readonly options?: readonly unknown[]
    readonly shape?: Record<string, unknown>
  }
}

const unwrap = (schema: unknown): unknown => {
  const def = (schema as Inner | undefined)?.def
  return def?.type === 'optional' ? unwrap(def.innerType) : schema
}
const elementOf = (schema: unknown): unknown => (schema as Inner | undefined)?.def?.element

/** The keys of an object, or of all the objects of a union together. */
function shapeOf(schema: unknown): Record<string, unknown> {
  const def = (unwrap(schema) as Inner | undefined)?.def
  if (def?.type === 'union')
    return Object.assign({}, ...(def.options ?? []).map(shapeOf)) as Record<string, unknown>
  return def?.shape ?? {}
}
