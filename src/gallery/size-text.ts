import { toInches } from '../units.ts'

/** A length in inches and in millimetres. */
export const sizeText = (mm: number): string => `${inchText(mm)} in (${wholeText(mm)} mm)`

/** A length in inches alone, mm. */
export const inchText = (mm: number): string => String(Number(toInches(mm).toFixed(2)))

/** A few mm to a tenth, more to a whole one. */
const wholeText = (mm: number): string => (mm < 10 ? String(Number(mm.toFixed(1))) : mm.toFixed(0))

/** A range of lengths in inches and in millimetres. */
export const rangeText = (min: number, max: number): string =>
  `${inchText(min)} to ${inchText(max)} in (${wholeText(min)} to ${wholeText(max)} mm)`
