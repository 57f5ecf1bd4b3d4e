import { type LengthUnit, MM_PER } from '../units.ts'

/** Units that a written length may carry. */
const UNIT_OF: Readonly<Record<string, number>> = {
  in: MM_PER.in,
  inch: MM_PER.in,
  inches: MM_PER.in,
  '"': MM_PER.in,
  '″': MM_PER.in,
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

/**
 * Reads a length.
 *
 * @param written  a number in `unit`, or text: `2.5 cm`, `1 1/2 in`, `3/4`, `1½"`, `75 m`
 * @param unit     what a bare number means
 * @returns mm, or undefined if it is not a finite length
 * @example parseLength('1 1/2 in', 'cm') // 38.1 (38.099999999999994 is not what a ruler says)
 */
export function parseLength(written: number | string, unit: LengthUnit): number | undefined {
  if (typeof written === 'number') return Number.isFinite(written) ? exact(written * MM_PER[unit]) : undefined
  const text = written.replaceAll(/[¼½¾⅛⅜⅝⅞⅓⅔]/g, (c) => ` ${VULGAR[c]}`).trim()
  const match =
    /^([+-]?)(\d{1,9}(?:\.\d{1,12})?|\.\d{1,12})?(?:(?:^|\s+)(\d{1,4})\/(\d{1,4}))?\s*([a-z"″]*)$/i.exec(text)
  if (!match) return undefined
  const [, sign, whole, over, under, suffix] = match
  if (whole === undefined && over === undefined) return undefined
  const factor = suffix ? UNIT_OF[suffix.toLowerCase()] : MM_PER[unit]
  const value = Number(whole ?? 0) + (over === undefined ? 0 : Number(over) / Number(under))
  if (factor === undefined || !Number.isFinite(value)) return undefined
  return exact((sign === '-' ? -1 : 1) * value * factor)
}

/** Rounded to a millionth of a millimetre, so that the same length is the same number in every unit. */
const exact = (mm: number): number => Math.round(mm * 1e6) / 1e6
