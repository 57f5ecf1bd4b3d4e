import { PlanError, type Problem } from '../error.ts'
import { LIMITS } from './limits.ts'
import { printable } from './printable.ts'

/** Where in the file something stands: keys and list positions from the root. */
export type Path = readonly (string | number)[]

/** Line and column in a file, both from 1. */
export interface Place {
  readonly line: number
  readonly column: number
}

/** Finds the places of values and of keys. */
export interface Places {
  positionOf(path: Path): Place | undefined
  positionOfKey(path: Path): Place | undefined
}

/** `bands[2].width`; a key that is no plain word stands in quotes: `bands[0].filler["s echo"]`. */
export const pathText = (path: Path): string =>
  path
    .map((step, i) => {
      if (typeof step === 'number') return `[${step}]`
      if (!/^[\w$-]+$/.test(step)) return `[${show(step)}]`
      return i === 0 ? step : `.${step}`
    })
    .join('')

/** A value as a message shows it: short, in quotes if it is text, and without anything that a terminal would act on. */
export function show(value: unknown): string {
  if (typeof value === 'string') {
    const short = [...value].slice(0, 40).join('')
    return printable(JSON.stringify(short.length < value.length ? `${short}...` : value))
  }
  if (Object.is(value, -0)) return '-0'
  if (typeof value === 'number' || typeof value === 'boolean') return String(value)
  if (value === undefined || value === null) return 'empty'
  return Array.isArray(value) ? 'a list' : 'a group of keys'
}

interface Found {
  readonly problem: Problem
  readonly path: Path
  readonly of: 'key' | 'value'
}

/** Collects what is wrong, so that all of it is told at once. */
export class Problems {
  readonly #found: Found[] = []

  add(code: string, path: Path, message: string, hint?: string): void {
    this.#add({
      problem: { code, at: pathText(path), message, ...(hint ? { hint } : {}) },
      path,
      of: 'value',
    })
  }

  /** Adds a problem with a key itself, not with its value. */
  addKey(code: string, path: Path, message: string, hint?: string): void {
    this.#add({ problem: { code, at: pathText(path), message, ...(hint ? { hint } : {}) }, path, of: 'key' })
  }

  /**
   * Adds those of `others` that don't stand at or within a place that already has a problem, nor around a key that is
   * wrong: it may be the very key that they miss.
   */
  addElsewhere(others: Problems): void {
    const before = [...this.#found]
    for (const found of others.#found) {
      const isKnown = before.some(
        ({ path, of }) => isWithin(found.path, path) || (of === 'key' && isWithin(path, found.path)),
      )
      if (!isKnown) this.#add(found)
    }
  }

  #add(found: Found): void {
    if (this.#found.length < 10 * LIMITS.problems) this.#found.push(found)
  }

  get any(): boolean {
    return this.#found.length > 0
  }

  /** Whether something at or within a place is wrong. */
  isWithin(path: Path): boolean {
    return this.#found.some((found) => isWithin(found.path, path))
  }

  /** The problems with their places, in the order of the file, up to `LIMITS.problems`. */
  list(places: Places): Problem[] {
    const placed = this.#found.map(({ problem, path, of }) => {
      const position = of === 'key' ? places.positionOfKey(path) : places.positionOf(path)
      return position ? { ...problem, position } : problem
    })
    return placed.sort(byPlace).slice(0, LIMITS.problems)
  }

  /** @throws PlanError with every problem, if there is any */
  throwIfAny(places: Places): void {
    if (this.any) throw new PlanError(this.list(places))
  }
}

const isWithin = (path: Path, around: Path): boolean => around.every((step, i) => path[i] === step)

const byPlace = (a: Problem, b: Problem): number =>
  (a.position?.line ?? 0) - (b.position?.line ?? 0) || (a.position?.column ?? 0) - (b.position?.column ?? 0)
