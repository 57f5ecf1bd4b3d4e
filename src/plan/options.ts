import type * as z from 'zod'
import { planFormat } from './format.ts'
import { QUANTITIES, type Quantity } from './format-parts.ts'

/** A key of the plan file as data: what may be written there, for whoever offers controls. */
export type Option = OptionKind & {
  /** What it is, in words. */
  readonly about: string
  /** What it is if nothing is written, in words. Undefined: it must be written, or is nothing. */
  readonly usual: string | undefined
  readonly isOptional: boolean
}

type OptionKind =
  | { readonly kind: Quantity | 'text' | 'number' | 'whole' | 'toggle' | 'anything' }
  | { readonly kind: 'choice'; readonly of: readonly string[] }
  | { readonly kind: 'group'; readonly of: Readonly<Record<string, Option>> }
  | { readonly kind: 'list'; readonly of: Option }
  | { readonly kind: 'row'; readonly of: readonly Option[] }
  /** A value for each of some names. */
  | { readonly kind: 'by-name'; readonly of: Option }
  | { readonly kind: 'either'; readonly of: readonly Option[] }

/** Every key of a plan file, in the order of the format. */
export function planOptions(): Readonly<Record<string, Option>> {
  const { kind, ...whole } = optionOf(planFormat)
  return kind === 'group' ? (whole as { readonly of: Readonly<Record<string, Option>> }).of : {}
}

/** A type of the format with as much of its definition as is read here. */
interface Type extends z.ZodType {
  readonly def: {
    readonly type: string
    readonly innerType?: Type
    readonly shape?: Readonly<Record<string, Type>>
    readonly element?: Type
    readonly items?: readonly Type[]
    readonly valueType?: Type
    readonly options?: readonly Type[]
    readonly entries?: Readonly<Record<string, string>>
    readonly values?: readonly unknown[]
    readonly format?: string
  } & z.ZodType['def']
}

function optionOf(type: z.ZodType): Option {
  const { def } = type as Type
  if (def.type === 'optional' || def.type === 'nullable')
    return { ...optionOf(def.innerType!), isOptional: true }
  const description = type.description ?? ''
  const [, about, usual] = /^([\s\S]*); ([^;]+) unless said$/.exec(description) ?? [undefined, description]
  return { ...kindOf(type as Type), about: about!, usual, isOptional: false }
}

function kindOf(type: Type): OptionKind {
  const { def } = type
  const known = QUANTITIES.get(type)
  if (known) return { kind: known.quantity }
  switch (def.type) {
    case 'object':
      return { kind: 'group', of: mapValues(def.shape!, optionOf) }
    case 'array':
      return { kind: 'list', of: optionOf(def.element!) }
    case 'tuple':
      return { kind: 'row', of: def.items!.map(optionOf) }
    case 'record':
      return { kind: 'by-name', of: optionOf(def.valueType!) }
    case 'enum':
      return { kind: 'choice', of: Object.values(def.entries!).map(String) }
    case 'literal':
      return { kind: 'choice', of: def.values!.map(String) }
    case 'union':
      return eitherOf(def.options!.map(optionOf))
    case 'number':
      return { kind: def.format === undefined ? 'number' : 'whole' }
    case 'boolean':
      return { kind: 'toggle' }
    case 'string':
      return { kind: 'text' }
    default:
      return { kind: 'anything' }
  }
}

/** Several ways to write the same; lists of words become one list, each word once. */
function eitherOf(of: readonly Option[]): OptionKind {
  const choices = of.flatMap((option) => (option.kind === 'choice' ? [option.of] : []))
  return choices.length === of.length
    ? { kind: 'choice', of: [...new Set(choices.flat())] }
    : { kind: 'either', of }
}

const mapValues = <T, U>(record: Readonly<Record<string, T>>, to: (value: T) => U): Record<string, U> =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, to(value)]))
