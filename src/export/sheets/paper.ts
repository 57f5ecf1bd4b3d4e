import type { LengthUnit } from '../../units.ts'

/** A sheet of paper, mm. */
export interface Paper {
  readonly width: number
  readonly height: number
}

/**
 * Sheets in portrait, mm.
 *
 * @source letter and tabloid: ANSI/ASME Y14.1 A and B, legal: 8 1/2 x 14 in (GNU paper table); A3, A4: ISO 216
 */
export const PAPERS = {
  letter: { width: 215.9, height: 279.4 },
  legal: { width: 215.9, height: 355.6 },
  tabloid: { width: 279.4, height: 431.8 },
  a4: { width: 210, height: 297 },
  a3: { width: 297, height: 420 },
} as const satisfies Record<string, Paper>

/** Longest page of a roll, mm: a PDF page may have 14,400 units of 1/72 in. @source ISO 32000-1, Annex C.2 */
export const LONGEST_PAGE = 5080

/** The paper to use when the plan doesn't say. */
export const usualPaper = (units: LengthUnit): keyof typeof PAPERS => (units === 'in' ? 'letter' : 'a4')

/** The sheet laid on its side. */
export const landscape = ({ width, height }: Paper): Paper => ({ width: height, height: width })
