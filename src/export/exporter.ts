import { PlanError, type Problem } from '../error.ts'
import type { Param } from '../motif/contract.ts'
import type { Drawing } from './drawing.ts'

/** A value that an exporter can be given: a motif's kinds (lengths in mm), and a yes-or-no and a short text besides. */
export type ExportParam =
  | Exclude<Param, { kind: 'length' }>
  | (Extract<Param, { kind: 'length' }> & { readonly default: number })
  | { readonly kind: 'toggle'; readonly label: string; readonly default: boolean }
  | {
      readonly kind: 'text'
      readonly label: string
      readonly default: string
      /** What the text must match, whole. */
      readonly pattern: RegExp
    }

export type ExportParams = Readonly<Record<string, ExportParam>>

type ValueOf<P> = P extends { kind: 'choice'; of: readonly (infer C)[] }
  ? C
  : P extends { kind: 'toggle' }
    ? boolean
    : P extends { kind: 'text' }
      ? string
      : number

/** The values for a description of options: mm for lengths. */
export type ExportValues<P extends ExportParams> = { readonly [K in keyof P]: ValueOf<P[K]> }

/** What an exporter makes: the whole content of one file. */
export type Content = string | Uint8Array

/** An output format, as data and a function without side effects. */
export interface Exporter<P extends ExportParams = ExportParams> {
  readonly title: string
  /** What it is for: commands and menus group by it. */
  readonly purpose: 'machine-path' | 'tracing' | 'order' | 'picture' | 'report'
  /** Without the dot. */
  readonly extension: string
  readonly mediaType: string
  /** The unit of the coordinates in the file; `chosen`: that of the option `units`. */
  readonly unit: 'mm' | 'pt' | 'px' | 'none' | 'chosen'
  readonly options: P
  /**
   * Writes the drawing. The same drawing and options give the same bytes.
   *
   * @throws PlanError if the options ask for what the drawing can't give
   */
  write(drawing: Drawing, options: ExportValues<P>): Content | Promise<Content>
}

/** Declares an exporter: infers the types of its values from `options`. */
export const defineExporter = <const P extends ExportParams>(exporter: Exporter<P>): Exporter<P> => exporter

/** The options' defaults. */
function defaultValues<P extends ExportParams>(options: P): ExportValues<P> {
  return Object.fromEntries(
    Object.entries(options).map(([name, param]) => [name, param.default]),
  ) as ExportValues<P>
}

/**
 * The values given, with the defaults for the rest.
 *
 * @throws PlanError `export/unknown-option` or `export/bad-option`, one problem for each wrong value
 */
export function optionValues<P extends ExportParams>(
  options: P,
  given: Readonly<Record<string, unknown>>,
): ExportValues<P> {
  const problems = Object.entries(given).flatMap(([name, value]) => problemOf(options, name, value))
  if (problems.length > 0) throw new PlanError(problems)
  return { ...defaultValues(options), ...given } as ExportValues<P>
}

function problemOf(options: ExportParams, name: string, value: unknown): Problem[] {
  const param = Object.hasOwn(options, name) ? options[name] : undefined
  if (!param) {
    const known = Object.keys(options).join(', ')
    return [
      { code: 'export/unknown-option', at: name, message: `no such option "${name}"; there are: ${known}` },
    ]
  }
  const allowed = allows(param, value)
  if (allowed === true) return []
  return [
    { code: 'export/bad-option', at: name, message: `${param.label} is ${show(value)}; allowed: ${allowed}` },
  ]
}

const show = (value: unknown): string => (typeof value === 'string' ? `"${value}"` : String(value))

/** True, or what would be allowed. */
function allows(param: ExportParam, value: unknown): true | string {
  switch (param.kind) {
    case 'choice':
      return param.of.includes(value as string) || param.of.join(', ')
    case 'toggle':
      return typeof value === 'boolean' || 'true, false'
    case 'text':
      return (typeof value === 'string' && param.pattern.test(value)) || `text like "${param.default}"`
    case 'count':
      return (Number.isInteger(value) && within(param, value)) || `whole numbers ${range(param)}`
    case 'length':
      return within(param, value) || `${range(param)} mm`
    case 'ratio':
      return within(param, value) || `numbers ${range(param)}`
  }
}

const within = (limits: { min: number; max: number }, value: unknown): boolean =>
  typeof value === 'number' && value >= limits.min && value <= limits.max
const range = (limits: { min: number; max: number }): string => `from ${limits.min} to ${limits.max}`
