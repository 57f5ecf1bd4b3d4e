/** The only file with a conversion factor. Inside, lengths are mm. */

/** Units of length that a plan may be written in. */
export const LENGTH_UNITS = ['in', 'cm', 'mm'] as const
export type LengthUnit = (typeof LENGTH_UNITS)[number]

/** Millimetres per unit. @source 1 in = 2.54 cm exactly (international yard and pound agreement, 1959) */
export const MM_PER: Readonly<Record<LengthUnit | 'm' | 'yd' | 'pt' | 'px', number>> = {
  in: 25.4,
  cm: 10,
  mm: 1,
  m: 1000,
  yd: 914.4,
  pt: 25.4 / 72,
  px: 25.4 / 96,
}

export const inches = (value: number): number => value * MM_PER.in
export const toInches = (mm: number): number => mm / MM_PER.in

/** A length in mm as a number of `unit`. */
export const toUnit = (mm: number, unit: LengthUnit): number => mm / MM_PER[unit]
