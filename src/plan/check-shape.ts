import type * as z from 'zod'
import { planFormat } from './format.ts'
import { type Path, type Problems, show } from './problems.ts'
import { didYouMean } from './suggest.ts'

type Issue = z.core.$ZodIssue

/**
 * Holds a file's data against the format: keys, kinds of values, fixed words.
 *
 * @returns the data with everything that is wrong made undefined, so that the rest can be checked further
 */
export function checkShape(data: Readonly<Record<string, unknown>>, problems: Problems): unknown {
  const { error } = planFormat.safeParse(data)
  if (!error) return data
  const copy: unknown = structuredClone(data)
  for (const issue of error.issues.flatMap((found) => unfold(found, data))) {
    addIssue(issue, data, problems)
    blank(issue, copy)
  }
  return copy
}

/** A union's issue becomes the issues of the form that was meant; itself if no form has the value's kind. */
function unfold(issue: Issue, data: unknown): Issue[] {
  if (issue.code !== 'invalid_union') return [issue]
  const value = valueAt(data, issue.path as Path)
  if (typeof value !== 'object' || value === null) return [scalarIssue(issue)]
  const meant = issue.errors
    .filter((form) => !form.some(({ code, path }) => path.length === 0 && code.startsWith('invalid_')))
    .sort((a, b) => a.length - b.length)[0]
  if (!meant) return [issue]
  return meant.flatMap((inner) => unfold({ ...inner, path: [...issue.path, ...inner.path] } as Issue, data))
}

/** Text that is too long says so; any other single value is told the forms that are allowed. */
const scalarIssue = (issue: z.core.$ZodIssueInvalidUnion): Issue => {
  const tooLong = issue.errors.flat().find(({ code, path }) => code === 'too_big' && path.length === 0)
  return tooLong ? ({ ...tooLong, path: issue.path } as Issue) : issue
}

function addIssue(issue: Issue, data: unknown, problems: Problems): void {
  const path = issue.path as Path
  const value = valueAt(data, path)
  if (issue.code === 'unrecognized_keys') {
    for (const key of issue.keys) addStranger(key, path, problems)
  } else if (value === undefined) {
    problems.add(path, { code: 'plan/missing', message: `is missing; expected ${expected(issue)}` })
  } else if (issue.code === 'invalid_value') {
    const known = issue.values.map(String)
    problems.add(path, {
      code: 'plan/choice',
      message: `is ${show(value)}; allowed: ${known.join(', ')}`,
      hint: didYouMean(value, known),
    })
  } else if (issue.code === 'too_big' || issue.code === 'too_small') {
    problems.add(path, { code: 'plan/size', message: sizeText(issue, value) })
  } else {
    const message = `is ${show(value)}; expected ${expected(issue)}`
    problems.add(path, { code: 'plan/value', message, hint: hintFor(issue, value) })
  }
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  object: 'keys and values',
  record: 'keys and values',
  array: 'a list',
  tuple: 'a list',
}

/** Whether the format has words of its own for what it expects. */
const isOurs = ({ message }: Issue): boolean => !/^(Invalid|Too|Unrecognized)\b/.test(message)

/** What would have done. */
function expected(issue: Issue): string {
  if (issue.code === 'invalid_value') return `one of ${issue.values.map(String).join(', ')}`
  if (isOurs(issue) || issue.code !== 'invalid_type') return issue.message
  return KINDS[issue.expected] ?? issue.expected
}

/** Keys that take a colour. */
const COLOUR_KEYS = new Set(['fabric', 'colour', 'thread', 'bindingFabric'])

function hintFor(issue: Issue, value: unknown): string | undefined {
  const [group, key] = issue.path.slice(-2)
  const isColour = COLOUR_KEYS.has(String(key ?? group)) || group === 'fabrics'
  if (value === null && isColour) return 'put a colour that begins with # in quotes'
  const isQuotedNumber =
    issue.code === 'invalid_type' && issue.expected === 'number' && typeof value === 'string'
  return isQuotedNumber && value.trim() !== '' && Number.isFinite(Number(value))
    ? `write ${value.trim()} without quotes`
    : undefined
}

function sizeText(issue: z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall, value: unknown): string {
  if (isOurs(issue)) return `has ${countText(value)}; expected ${issue.message}`
  const limit = issue.code === 'too_big' ? `at most ${issue.maximum}` : `at least ${issue.minimum}`
  return typeof value === 'number'
    ? `is ${show(value)}; allowed: ${limit}`
    : `has ${countText(value)}; allowed: ${limit}`
}

/** How much a text or a list holds. */
function countText(value: unknown): string {
  const { length } = value as string | readonly unknown[]
  if (typeof value === 'string') return `${length} ${length === 1 ? 'character' : 'characters'}`
  return `${length} ${length === 1 ? 'entry' : 'entries'}`
}

function addStranger(key: string, parent: Path, problems: Problems): void {
  const known = keysAt(parent).filter((name) => name !== '$schema')
  problems.add([...parent, key], {
    code: 'plan/unknown-key',
    message: `unknown key ${show(key)}; allowed: ${known.join(', ')}`,
    hint: didYouMean(key, known),
    of: 'key',
  })
}

/** Makes what an issue is about undefined, and takes unknown keys away. */
function blank(issue: Issue, data: unknown): void {
  const path = issue.path as Path
  if (issue.code === 'unrecognized_keys') {
    const group = valueAt(data, path)
    if (typeof group === 'object' && group !== null)
      for (const key of issue.keys) Reflect.deleteProperty(group, key)
    return
  }
  const group = valueAt(data, path.slice(0, -1))
  const key = path.at(-1)
  if (typeof group !== 'object' || group === null || key === undefined) return
  Object.defineProperty(group, key, {
    value: undefined,
    enumerable: true,
    configurable: true,
    writable: true,
  })
}

/** What stands at a path, if anything does. */
export function valueAt(data: unknown, path: Path): unknown {
  let at: unknown = data
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return undefined
    at = (at as Record<string | number, unknown>)[step]
  }
  return at
}

/** The keys that the format knows at a place. */
function keysAt(path: Path): string[] {
  let types: z.core.$ZodTypes[] = [planFormat as unknown as z.core.$ZodTypes]
  for (const step of path) types = types.flatMap(forms).flatMap((type) => inside(type, step))
  const groups = types
    .flatMap(forms)
    .flatMap((type) => (type._zod.def.type === 'object' ? [type._zod.def.shape] : []))
  return groups.flatMap((shape) => Object.keys(shape))
}

/** A type itself, or the forms that it may take. */
function forms(type: z.core.$ZodTypes): z.core.$ZodTypes[] {
  const { def } = type._zod
  if (def.type === 'optional' || def.type === 'nullable') return forms(def.innerType as z.core.$ZodTypes)
  return def.type === 'union' ? def.options.flatMap((option) => forms(option as z.core.$ZodTypes)) : [type]
}

/** The types that stand at a step inside a type. */
function inside(type: z.core.$ZodTypes, step: string | number): z.core.$ZodTypes[] {
  const { def } = type._zod
  if (def.type === 'array') return [def.element as z.core.$ZodTypes]
  if (def.type === 'object' && Object.hasOwn(def.shape, step)) return [def.shape[step] as z.core.$ZodTypes]
  return []
}
