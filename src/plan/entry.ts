import { type LengthUnit, MM_PER } from '../units.ts'
import type { Catalog } from './catalog.ts'
import { formatColour } from './colour.ts'
import { LENGTH_FORMS, lengthRange, parseLength } from './length.ts'
import { LIMITS } from './limits.ts'
import { type Fault, listNames, type Path, type Problems, show } from './problems.ts'
import { didYouMean } from './suggest.ts'

/** What checking a plan needs at hand. */
export interface Desk {
  readonly units: LengthUnit
  readonly catalog: Catalog
  readonly problems: Problems
  readonly warnings: Problems
}

/** Limits of a value, and what it is if nothing (or nothing usable) is written. Lengths in mm. */
export interface Bounds<T = number> {
  readonly least?: number
  readonly greatest?: number
  readonly fallback: T
}

/**
 * A place in the plan file: reads the value there, notes what is wrong with it, and goes on with the fallback. What the
 * check of the file's shape refused is undefined here and passes silently.
 */
export class Entry {
  constructor(
    readonly value: unknown,
    readonly path: Path,
    readonly desk: Desk,
  ) {}

  /** The entry at a key or a position; of an undefined value if there is none. */
  at(step: string | number): Entry {
    return new Entry(
      this.has(step) ? (this.value as never)[step] : undefined,
      [...this.path, step],
      this.desk,
    )
  }

  /** The same entry, where more can be named. */
  knowing(catalog: Catalog): Entry {
    return new Entry(this.value, this.path, { ...this.desk, catalog })
  }

  /** Whether a key is written, right or wrong. */
  has(step: string | number): boolean {
    return this.isGroup && Object.hasOwn(this.value as object, step)
  }

  /** Whether there is a usable value. */
  get isGiven(): boolean {
    return this.value !== undefined
  }

  get isGroup(): boolean {
    return typeof this.value === 'object' && this.value !== null
  }

  keys(): string[] {
    return this.isGroup ? Object.keys(this.value as object) : []
  }

  items(): Entry[] {
    return Array.isArray(this.value) ? this.value.map((_, i) => this.at(i)) : []
  }

  text(): string | undefined {
    return typeof this.value === 'string' ? this.value : undefined
  }

  refuse(fault: Fault): undefined {
    this.desk.problems.add(this.path, fault)
  }

  warn(fault: Fault): void {
    this.desk.warnings.add(this.path, fault)
  }

  /** Refuses a name that isn't known. */
  refuseName(code: string, known: readonly string[]): undefined {
    const message = `is ${show(this.value)}; allowed: ${listNames(known)}`
    return this.refuse({ code, message, hint: didYouMean(this.value, known) })
  }

  /** A length, mm. */
  length<T>({ least = LIMITS.least, greatest = LIMITS.greatest, fallback }: Bounds<T>): number | T {
    const { value } = this
    if (value === undefined) return fallback
    const { units } = this.desk
    const mm = typeof value === 'number' || typeof value === 'string' ? parseLength(value, units) : undefined
    const slack = 1e-6
    if (mm !== undefined && mm >= least - slack && mm <= greatest + slack) return mm
    const message =
      mm === undefined
        ? `is ${show(value)}; expected ${LENGTH_FORMS}`
        : `is ${show(value)}; allowed: ${lengthRange([least, greatest], units)}`
    this.refuse({ code: 'plan/length', message, hint: commaHint(value) })
    return fallback
  }

  /** A length of thread, m. */
  metres<T>({ least = 0, greatest = Number.POSITIVE_INFINITY, fallback }: Bounds<T>): number | T {
    const { value } = this
    if (value === undefined) return fallback
    const { units } = this.desk
    const mm = typeof value === 'number' || typeof value === 'string' ? parseLength(value, units) : undefined
    if (mm !== undefined && mm >= least * MM_PER.m && mm <= greatest * MM_PER.m) return mm / MM_PER.m
    const hint =
      typeof value === 'number'
        ? `without a unit it is ${value} ${units}; write ${value} m or ${value} yd`
        : undefined
    const message = `is ${show(value)}; allowed: ${least} m to ${greatest} m`
    this.refuse({ code: 'plan/length', message, hint })
    return fallback
  }

  number<T>(bounds: Bounds<T> & { readonly whole?: true }): number | T {
    const { value } = this
    if (value === undefined) return bounds.fallback
    return this.#within(typeof value === 'number' ? value : Number.NaN, bounds)
  }

  /** A share: 0.6, or `60 %`. */
  share<T>({ least = 0, greatest = 1, fallback }: Bounds<T>): number | T {
    const { value } = this
    if (value === undefined) return fallback
    const percent = typeof value === 'string' ? /^(\d{1,3}(?:\.\d{1,9})?)\s*%$/.exec(value.trim()) : null
    const share = percent ? Number(percent[1]) / 100 : typeof value === 'number' ? value : Number.NaN
    if (share >= least && share <= greatest) return share
    const hint =
      typeof value === 'number' && value > 1 && value <= 100 ? `did you mean ${value} %?` : undefined
    const range = `${least} to ${greatest}, or ${least * 100} % to ${greatest * 100} %`
    this.refuse({ code: 'plan/share', message: `is ${show(value)}; allowed: ${range}`, hint })
    return fallback
  }

  /** A CSS colour, as `#rrggbb`. */
  colour<T>(fallback: T): string | T {
    const { value } = this
    if (value === undefined) return fallback
    const colour = typeof value === 'string' ? formatColour(value) : undefined
    if (colour) return colour
    const message = `is ${show(value)}; expected a CSS colour such as #3f6f86, navy or hsl(200 40% 40%)`
    this.refuse({ code: 'plan/colour', message })
    return fallback
  }

  /** One of a few fixed words, which the check of the file's shape has made sure of. */
  choice<T extends string>(known: readonly T[], fallback: T): T {
    return known.find((word) => word === this.value) ?? fallback
  }

  #within<T>(
    value: number,
    { least = 0, greatest = Number.MAX_VALUE, fallback, whole }: Bounds<T> & { readonly whole?: true },
  ): number | T {
    if (value >= least && value <= greatest && (!whole || Number.isInteger(value))) return value + 0
    const kind = whole ? 'whole numbers from ' : ''
    const message = `is ${show(this.value)}; allowed: ${kind}${least} to ${greatest}`
    this.refuse({ code: 'plan/number', message })
    return fallback
  }
}

/** Many write 2,5 for 2.5. */
const commaHint = (value: unknown): string | undefined =>
  typeof value === 'string' && /^\s*\d+,\d+(\D|$)/.test(value)
    ? `write ${value.trim().replace(',', '.')}, with a point`
    : undefined
