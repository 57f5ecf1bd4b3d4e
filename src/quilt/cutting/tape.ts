import { type LengthUnit, MM_PER } from '../../units.ts'

/** The smallest mark on the tape, mm: an eighth of an inch, or a millimetre. */
export const markOf = (unit: LengthUnit): number => (unit === 'in' ? MM_PER.in / 8 : 1)

/** Far less than any tape shows, mm: so that a length that is a mark stays that mark. */
const ROUNDING = 1e-6

/** The nearest mark on the tape, mm. */
export const toMark = (mm: number, unit: LengthUnit): number => Math.round(mm / markOf(unit)) * markOf(unit)

/** The next mark on the tape, mm: a strip is rather eased in than too short. */
export const upToMark = (mm: number, unit: LengthUnit): number =>
  Math.ceil((mm - ROUNDING) / markOf(unit)) * markOf(unit)

/** The length of fabric to buy, mm: up to the next eighth of a yard, or the next ten centimetres. */
export function upToBolt(mm: number, unit: LengthUnit): number {
  const step = unit === 'in' ? MM_PER.yd / 8 : 10 * MM_PER.cm
  return Math.ceil((mm - ROUNDING) / step) * step
}

/**
 * How many strips as long as the fabric is wide make one strip when they are joined end to end.
 *
 * @param length  of the joined strip, mm
 * @param fabric  as it is joined
 * @param fabric.usable  width of the fabric, mm
 * @param fabric.lost    what each join takes from the length, mm
 * @source n strips have n - 1 joins: n usable - (n - 1) lost >= length
 */
export const stripsFor = (length: number, { usable, lost }: { usable: number; lost: number }): number =>
  Math.max(1, Math.ceil((length - lost - ROUNDING) / (usable - lost)))
