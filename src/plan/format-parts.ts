import * as z from 'zod'
import type { Param, Params } from '../motif/contract.ts'
import { type Known, namesOf, paramsOf } from './catalog.ts'
import { LENGTH_FORMS } from './length.ts'
import { LIMITS } from './limits.ts'
import { SIDES } from './plan.ts'

/** What a value is that is written as a number or a text: those who offer controls need to know. */
export type Quantity = 'length' | 'length-of-sides' | 'share' | 'colour' | 'fabric' | 'name'

/** The quantities of the format, by the type that reads them; types made from these have the same. */
export const QUANTITIES = z.registry<{ readonly quantity: Quantity }>()

/** Documents a key: what it is, its unit, and what it is if left out. */
export const optional = <T extends z.ZodType>(
  type: T,
  text: string,
  fallback?: unknown,
): z.ZodOptional<T> => {
  const about = { description: fallback === undefined ? text : `${text}; ${shown(fallback)} unless said` }
  const isPlain = typeof fallback !== 'object' && fallback !== undefined
  return (isPlain ? type.meta({ ...about, default: fallback }) : type.meta(about)).optional()
}

const shown = (fallback: unknown): string =>
  Array.isArray(fallback) ? fallback.join(' x ') : String((fallback as { text?: string }).text ?? fallback)

const text = z.string().max(LIMITS.text)

/** A length as written: a number in the plan's units, or text. */
export const length = z.union([z.number(), text], { error: LENGTH_FORMS })
length.register(QUANTITIES, { quantity: 'length' })

export const share = z.union([z.number(), text], {
  error: 'a share from 0 to 1, or a percentage such as 60 %',
})
share.register(QUANTITIES, { quantity: 'share' })
export const colour = z.string().max(LIMITS.text)
colour.register(QUANTITIES, { quantity: 'colour' })
export const name = z
  .string()
  .min(1)
  .max(LIMITS.name)
  .regex(/^[ -~\u00a0-\u2027\u202f-\u2065\u206a-\uffff]*$/, { error: 'text without control characters' })
name.register(QUANTITIES, { quantity: 'name' })

/** The name of a motif that a plan draws itself. */
export const DRAWN_NAME = /^[a-z][a-z0-9-]{0,39}$/

/** A length for every side, or one for each. */
export const lengthOfSides = z.union(
  [
    length,
    z.strictObject({
      top: length.describe('at the top'),
      right: length.describe('on the right'),
      bottom: length.describe('at the bottom'),
      left: length.describe('on the left'),
    }),
  ],
  { error: `${LENGTH_FORMS}, or { top, right, bottom, left }` },
)
lengthOfSides.register(QUANTITIES, { quantity: 'length-of-sides' })

export const point = z.tuple([length, length], { error: 'a place [x, y]' })

export const polygon = z.array(point).min(3).max(LIMITS.polygon)

export const fabric = z.union(
  [
    colour,
    z
      .array(
        z.strictObject({
          colour: colour.describe('CSS colour'),
          share: share.describe('share of the fabric, 0 to 1 or such as 60 %; together at most 1'),
        }),
      )
      .min(1)
      .max(LIMITS.colours),
  ],
  { error: 'a CSS colour, or a list of { colour, share }' },
)
fabric.register(QUANTITIES, { quantity: 'fabric' })

/** What a filler's key looks like to an editor: none, names, and names with their values. */
export function fillerFormat(known: Known, words: readonly string[]): z.ZodType {
  const names = namesOf(known)
  const choices = [...words, ...names] as [string, ...string[]]
  if (names.length === 0) return z.enum(choices)
  const withValues = Object.fromEntries(
    names.map((key) => [
      key,
      optional(valuesFormat(paramsOf(known, key)).nullable(), `${key} with its values`),
    ]),
  )
  return z.union([z.enum(choices), z.strictObject(withValues)])
}

const valuesFormat = (params: Params) =>
  z.strictObject(Object.fromEntries(Object.entries(params).map(([key, param]) => [key, valueFormat(param)])))

function valueFormat(param: Param): z.ZodType {
  if (param.kind === 'choice')
    return optional(z.enum(param.of as [string, ...string[]]), param.label, param.default)
  if (param.kind === 'length') {
    const usual =
      typeof param.default === 'number'
        ? `${round(param.default)} mm`
        : `${param.default.widths} x the band's width`
    return optional(length, `${param.label}, a length of ${round(param.min)} to ${round(param.max)} mm`, {
      text: usual,
    })
  }
  const number = param.kind === 'count' ? z.int() : z.number()
  return optional(
    number.min(param.min).max(param.max),
    `${param.label}, ${param.min} to ${param.max}`,
    param.default,
  )
}

const round = (mm: number): number => Number(mm.toPrecision(4))

/** A filler for every side that differs. */
export const fillerOfSides = (filler: z.ZodType) =>
  z.strictObject(
    Object.fromEntries(
      SIDES.map((side) => [side, optional(filler, `${side} side: a filler of its own, or none`)]),
    ),
  )
