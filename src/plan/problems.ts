import { PlanError, type Problem } from '../error.ts'

/** Where in the file something stands: keys and list positions from the root. */
export type Path = readonly (string | number)[]

/** `bands[2].width`. */
export const pathText = (path: Path): string =>
  path.map((step, i) => (typeof step === 'number' ? `[${step}]` : i === 0 ? step : `.${step}`)).join('')

/** A value as a message shows it: short, in quotes if it is text. */
export function show(value: unknown): string {
  if (typeof value === 'string') return `"${value.length > 40 ? `${value.slice(0, 40)}...` : value}"`
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return String(value)
  if (value === undefined) return 'nothing'
  return Array.isArray(value) ? 'a list' : 'a group of keys'
}

/** Collects what is wrong, so that all of it is told at once. */
export class Problems {
  readonly #found: { readonly problem: Problem; readonly path: Path }[] = []

  add(code: string, path: Path, message: string, hint?: string): void {
    this.#found.push({ problem: { code, at: pathText(path), message, ...(hint ? { hint } : {}) }, path })
  }

  get any(): boolean {
    return this.#found.length > 0
  }

  /** The problems with their places in the file. */
  list(positionOf: (path: Path) => { line: number; column: number } | undefined): Problem[] {
    return this.#found.map(({ problem, path }) => {
      const position = positionOf(path)
      return position ? { ...problem, position } : problem
    })
  }

  /** @throws PlanError with every problem, if there is any */
  throwIfAny(positionOf: (path: Path) => { line: number; column: number } | undefined): void {
    if (this.any) throw new PlanError(this.list(positionOf))
  }
}
