import { type LengthUnit, MM_PER, toUnit } from '../units.ts'

/** Units that a written length may carry. */
const UNIT_OF: Readonly<Record<string, number>> = {
  in: MM_PER.in,
  inch: MM_PER.in,
  inches: MM_PER.in,
  '"': MM_PER.in,
  '″': MM_PER.in,
  '”': MM_PER.in,
  cm: MM_PER.cm,
  mm: MM_PER.mm,
  m: MM_PER.m,
  yd: MM_PER.yd,
  yard: MM_PER.yd,
  yards: MM_PER.yd,
}

const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
}

/** What a length may look like, for messages. */
export const LENGTH_FORMS = 'a number, or a length such as 2.5 cm, 10 mm, 1 1/2 in, 3/4, 1.5"'

const WRITTEN =
  /^(?<sign>[+-]?)\s*(?:(?:(?<whole>\d{1,9})(?:\s+|-))?(?<over>\d{1,6})\s*\/\s*(?<under>\d{1,6})|(?<decimal>\d{0,9}\.\d{1,20}|\d{1,9}))\s*(?<unit>[a-z"″”]*)$/iu

/**
 * Reads a length.
 *
 * @param written  a number in `unit`, or text: `2.5 cm`, `1 1/2 in`, `1-1/2 in`, `3/4`, `1½"`, `75 m`, `60 yd`
 * @param unit     what a bare number means
 * @returns mm, rounded to a millionth so that the same length is the same number in every unit; undefined if it is not
 *   a finite length
 * @example parseLength('1 1/2 in', 'cm') // 38.1
 */
export function parseLength(written: number | string, unit: LengthUnit): number | undefined {
  if (typeof written === 'number') return finite(written * MM_PER[unit])
  const text = written.replaceAll(/[¼½¾⅛⅜⅝⅞⅓⅔]/g, (c) => ` ${VULGAR[c]}`).trim()
  const parts = WRITTEN.exec(text)?.groups
  if (!parts) return undefined
  const factor = parts.unit ? UNIT_OF[parts.unit.toLowerCase()] : MM_PER[unit]
  if (factor === undefined) return undefined
  const fraction = parts.over === undefined ? 0 : Number(parts.over) / Number(parts.under)
  const value = Number(parts.decimal ?? parts.whole ?? 0) + fraction
  return finite((parts.sign === '-' ? -1 : 1) * value * factor)
}

/** A length rounded to a millionth of a millimetre, as plans keep them. */
export const roundLength = (mm: number): number => Math.round(mm * 1e6) / 1e6 + 0

function finite(mm: number): number | undefined {
  const rounded = roundLength(mm)
  return Number.isFinite(rounded) ? rounded : undefined
}

/** A length as a decimal number of its unit, to four figures: for sizes in messages. */
export const decimalLength = (mm: number, unit: LengthUnit, figures = 4): string =>
  `${Number(toUnit(mm, unit).toPrecision(figures))} ${unit}`

/** Two lengths in as many figures as it takes to tell them apart. */
export function lengthsApart([a, b]: readonly [number, number], unit: LengthUnit): [string, string] {
  const texts = (figures: number): [string, string] => [
    decimalLength(a, unit, figures),
    decimalLength(b, unit, figures),
  ]
  for (let figures = 4; figures < 12; figures++) {
    const [one, other] = texts(figures)
    if (one !== other) return [one, other]
  }
  return texts(12)
}

/** Limits of a length to four figures, rounded inward: what is told to be allowed is allowed. */
export function lengthRange([least, greatest]: readonly [number, number], unit: LengthUnit): string {
  const up = inFigures(toUnit(least, unit), Math.ceil)
  const down = inFigures(toUnit(greatest, unit), Math.floor)
  return `${up} ${unit} to ${down} ${unit}`
}

/** A number to four figures, rounded one way unless it has no more. */
function inFigures(value: number, round: (value: number) => number): number {
  const near = Number(value.toPrecision(4))
  if (Math.abs(near - value) <= Math.abs(value) * 1e-9) return near
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 3)
  return Number((round(value / step) * step).toPrecision(4))
}
