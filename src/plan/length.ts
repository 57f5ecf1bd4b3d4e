import { type LengthUnit, MM_PER } from '../units.ts'
import { LIMITS } from './limits.ts'

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

const DECIMAL = /^(?<sign>[+-]?)(?<whole>\d{1,9}(?:\.\d{1,12})?|\.\d{1,12})\s*(?<unit>[a-z"″”]*)$/i
const FRACTION =
  /^(?<sign>[+-]?)(?:(?<whole>\d{1,9})(?:\s+|-))?(?<over>\d{1,4})\s*\/\s*(?<under>\d{1,4})\s*(?<unit>[a-z"″”]*)$/i

/**
 * Reads a length.
 *
 * @param written  a number in `unit`, or text: `2.5 cm`, `1 1/2 in`, `3/4`, `1½"`, `75 m`
 * @param unit     what a bare number means
 * @returns mm, or undefined if it is not a finite length
 * @example parseLength('1 1/2 in', 'cm') // 38.1 (38.099999999999994 is not what a ruler says)
 */
export function parseLength(written: number | string, unit: LengthUnit): number | undefined {
  if (typeof written === 'number') return exact(written * MM_PER[unit])
  if (written.length > LIMITS.length) return undefined
  const text = written
    .replaceAll(/[¼½¾⅛⅜⅝⅞⅓⅔]/g, (c) => ` ${VULGAR[c]}`)
    .replaceAll('⁄', '/')
    .trim()
  const found = (DECIMAL.exec(text) ?? FRACTION.exec(text))?.groups
  if (!found) return undefined
  const factor = found.unit ? UNIT_OF[found.unit.toLowerCase()] : MM_PER[unit]
  if (factor === undefined) return undefined
  const value = Number(found.whole ?? 0) + (found.over ? Number(found.over) / Number(found.under) : 0)
  return exact((found.sign === '-' ? -1 : 1) * value * factor)
}

/** What to say to somebody who writes a decimal comma. */
export const lengthHint = (written: number | string): string | undefined =>
  typeof written === 'string' && /^\s*[+-]?\d+,\d+/.test(written)
    ? `write a point: ${written.trim().replace(',', '.')}`
    : undefined

/** Rounded to a millionth of a millimetre, so that the same length is the same number in every unit. Zero has no sign. */
function exact(mm: number): number | undefined {
  const rounded = Math.round(mm * 1e6) / 1e6 + 0
  return Number.isFinite(rounded) ? rounded : undefined
}
