import { type LengthUnit, MM_PER } from './units.ts'

/** How finely a length in inches is shown: in 8ths (a tape measure) or in 16ths (a ruler). */
type InchParts = 8 | 16

/**
 * A length for reading: inches to the nearest 16th as a fraction (or 8th, as asked), centimetres to the millimetre, whole mm.
 *
 * @param mm  length, mm
 * @example lengthText(63.5, 'in') // '2 1/2 in'
 */
export function lengthText(mm: number, unit: LengthUnit, parts: InchParts = 16): string {
  if (unit === 'in') return `${fractionText(Math.round((mm / MM_PER.in) * parts), parts)} in`
  if (unit === 'cm') return `${Math.round((mm / MM_PER.cm) * 10) / 10 + 0} cm`
  return `${Math.round(mm) + 0} mm`
}

/** The same as a tape measure shows it: inches to the nearest 8th. */
export const tapeText = (mm: number, unit: LengthUnit): string => lengthText(mm, unit, 8)

/** `count` parts of an inch as a mixed number: 37 eighths are 4 5/8. */
function fractionText(count: number, parts: InchParts): string {
  const sign = count < 0 ? '-' : ''
  const whole = Math.floor(Math.abs(count) / parts)
  let [over, under]: [number, number] = [Math.abs(count) % parts, parts]
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2]
  if (over === 0) return `${sign}${whole}`
  return `${sign}${whole > 0 ? `${whole} ` : ''}${over}/${under}`
}
