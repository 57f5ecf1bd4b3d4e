import type { Problem } from '../error.ts'
import { LIMITS } from './limits.ts'
import { printable } from './printable.ts'

/** Where in the file something stands: keys and list positions from the root. */
export type Path = readonly (string | number)[]

/** Finds a place in the file: of a value, or (`key`) of the key before it. */
export type Locate = (path: Path, of: 'key' | 'value') => { readonly line: number; readonly column: number }

const PLAIN_KEY = /^[\p{L}\p{N}_-]+$/u

/** `bands[2].width`; a key that would be misread is put in quotes. */
export const pathText = (path: Path): string =>
  path
    .map((step, i) => {
      if (typeof step === 'number') return `[${step}]`
      if (!PLAIN_KEY.test(step)) return `[${JSON.stringify(step.slice(0, 80))}]`
      return i === 0 ? step : `.${step}`
    })
    .join('')

/** The path that `pathText` wrote. */
export const pathOf = (text: string): Path =>
  [...text.matchAll(/\[(\d+)\]|\[("(?:[^"\\]|\\.)*")\]|\.?([^.[\]]+)/g)].map(([, index, quoted, key]) => {
    if (index !== undefined) return Number(index)
    return quoted === undefined ? (key ?? '') : String(JSON.parse(quoted))
  })

/** A value as a message shows it: short, in quotes if it is text, without anything that a terminal would act on. */
export function show(value: unknown): string {
  if (typeof value === 'string')
    return `"${printable(value.length > 40 ? `${value.slice(0, 40)}...` : value)}"`
  if (value === null) return 'empty'
  if (value === undefined) return 'missing'
  if (typeof value === 'object') return Array.isArray(value) ? 'a list' : 'a group of keys'
  return String(value)
}

/** Names in a sentence; of very many only the first. */
export function listNames(names: readonly string[]): string {
  if (names.length === 0) return 'none are known'
  const more = names.length - 40
  return more > 0 ? `${names.slice(0, 40).join(', ')} and ${more} more` : names.join(', ')
}

/** What was wrong, apart from the place. */
export interface Fault {
  readonly code: string
  readonly message: string
  /** What to do about it; a function where that takes a search. */
  readonly hint?: string | (() => string | undefined) | undefined
  /** What the place in the file is that of. */
  readonly of?: 'key' | 'value'
}

/** Collects what is wrong, so that all of it is told at once. */
export class Problems {
  readonly #found: { readonly path: Path; readonly problem: Problem; readonly of: 'key' | 'value' }[] = []
  #count = 0

  /** Of very many problems only the first are kept, and fewer get a hint that takes a search. */
  add(path: Path, { code, message, hint, of = 'value' }: Fault): void {
    this.#count++
    if (this.#count > LIMITS.problems) return
    const found = typeof hint !== 'function' ? hint : this.#count <= LIMITS.hints ? hint() : undefined
    const problem = { code, message, at: pathText(path), ...(found ? { hint: found } : {}) }
    this.#found.push({ path, problem, of })
  }

  /** The problems with their places in the file, in the file's order. */
  list(locate: Locate): Problem[] {
    return this.#found
      .map(({ path, problem, of }) => ({ ...problem, position: locate(path, of) }))
      .sort(byPosition)
  }
}

/** Orders problems as they stand in the file. */
export const byPosition = (a: Problem, b: Problem): number =>
  (a.position?.line ?? 0) - (b.position?.line ?? 0) || (a.position?.column ?? 0) - (b.position?.column ?? 0)
