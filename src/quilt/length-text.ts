import { type LengthUnit, MM_PER, toInches } from '../units.ts'

/** Cloth is cut and measured in eighths of an inch. */
export const EIGHTHS = 8

/** A length as a tape measure shows it: the nearest eighth of an inch, tenth of a centimetre, or millimetre. */
export function lengthText(mm: number, unit: LengthUnit): string {
  if (unit === 'in') return `${fractionText(Math.round(toInches(mm) * EIGHTHS))} in`
  if (unit === 'cm') return `${Number((mm / MM_PER.cm).toFixed(1))} cm`
  return `${Math.round(mm)} mm`
}

/** Eighths of an inch as a mixed number: 37 is 4 5/8. */
function fractionText(eighths: number): string {
  const sign = eighths < 0 ? '-' : ''
  const [whole, rest] = [Math.floor(Math.abs(eighths) / EIGHTHS), Math.abs(eighths) % EIGHTHS]
  if (rest === 0) return `${sign}${whole}`
  const shared = rest % 4 === 0 ? 4 : rest % 2 === 0 ? 2 : 1
  return `${sign}${whole > 0 ? `${whole} ` : ''}${rest / shared}/${EIGHTHS / shared}`
}
