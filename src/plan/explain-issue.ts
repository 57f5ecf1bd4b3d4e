import type * as z from 'zod'
import { describeAt, keysAt } from './format-keys.ts'
import { type Path, type Problems, show } from './problems.ts'
import { nearestName } from './suggest.ts'

interface Context {
  readonly data: unknown
  readonly problems: Problems
}

/** Tells a mismatch with the format in a quilter's words: the place, the value, what is allowed, the nearest known name. */
export function explainIssue(issue: z.core.$ZodIssue, context: Context): void {
  const path = issue.path as Path
  switch (issue.code) {
    case 'unrecognized_keys':
      for (const key of issue.keys) addStranger(key, path, context)
      return
    case 'invalid_union':
      addUnion(issue, context)
      return
    case 'invalid_value':
      addChoice(issue.values.map(String), path, context)
      return
    default:
      addValue(expectationOf(issue), path, context)
  }
}

/** The part of plain data at a path; only keys of its own, so that `constructor` is nothing special. */
export function valueAt(data: unknown, path: Path): unknown {
  let at: unknown = data
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return undefined
    at = (at as Record<string | number, unknown>)[step]
  }
  return at
}

function isThere(data: unknown, path: Path): boolean {
  const parent = valueAt(data, path.slice(0, -1))
  const last = path.at(-1)
  return last === undefined || (typeof parent === 'object' && parent !== null && Object.hasOwn(parent, last))
}

/** How a value's refusal begins: `is "x"`, `is empty`, or `missing`. */
const stateOf = (path: Path, { data }: Context): string =>
  isThere(data, path) ? `is ${show(valueAt(data, path))}` : 'missing'

function addStranger(key: string, parent: Path, { problems }: Context): void {
  const known = keysAt(parent)
  const near = nearestName(key, known)
  problems.addKey(
    'plan/unknown-key',
    [...parent, key],
    `unknown key ${show(key)}; allowed: ${known.join(', ')}`,
    near && `did you mean ${near}?`,
  )
}

function addChoice(known: readonly string[], path: Path, context: Context): void {
  const value = valueAt(context.data, path)
  const near = typeof value === 'string' ? nearestName(value, known) : undefined
  context.problems.add(
    'plan/choice',
    path,
    `${stateOf(path, context)}; allowed: ${known.join(', ')}`,
    near && `did you mean ${near}?`,
  )
}

function addValue(expectation: string | undefined, path: Path, context: Context): void {
  const value = valueAt(context.data, path)
  const meaning = describeAt(path)
  const wanted = [expectation && `expected ${expectation}`, meaning].filter((text) => text !== undefined)
  context.problems.add(
    'plan/value',
    path,
    `${stateOf(path, context)}; ${wanted.join(': ')}`,
    value === null && isColour(path) ? 'a colour that begins with # needs quotes: "#3f6f86"' : undefined,
  )
}

const isColour = (path: Path): boolean => /^(fabric|colour|bindingFabric)$/.test(String(path.at(-1)))

/** A union is answered by the branch that got furthest, or else by everything that would have done. */
function addUnion(issue: z.core.$ZodIssueInvalidUnion, context: Context): void {
  const path = issue.path as Path
  const value = valueAt(context.data, path)
  const deeper = issue.errors.flat().filter((e) => e.path.length > 0 || e.code === 'unrecognized_keys')
  if (deeper.length > 0 && typeof value === 'object' && value !== null) {
    for (const inner of deeper)
      explainIssue({ ...inner, path: [...path, ...inner.path] } as z.core.$ZodIssue, context)
    return
  }
  const choices = issue.errors.flat().flatMap((e) => (e.code === 'invalid_value' ? e.values.map(String) : []))
  if (choices.length > 0) addChoice(choices, path, context)
  else addValue(undefined, path, context)
}

/** What would have been right, in words. */
function expectationOf(issue: z.core.$ZodIssue): string | undefined {
  switch (issue.code) {
    case 'invalid_type':
      return TYPE_WORDS[issue.expected] ?? issue.expected
    case 'too_big':
      return `at most ${issue.maximum}${unitOf(issue.origin)}`
    case 'too_small':
      return `at least ${issue.minimum}${unitOf(issue.origin)}`
    case 'invalid_format':
      return 'text that can be printed'
    default:
      return undefined
  }
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  number: 'a number',
  nan: 'a number',
  int: 'a whole number',
  string: 'text',
  boolean: 'true or false',
  object: 'a group of keys',
  record: 'a group of keys',
  array: 'a list',
  tuple: 'a list',
}

const unitOf = (origin: string): string =>
  origin === 'string' ? ' characters' : origin === 'array' ? ' entries' : ''
