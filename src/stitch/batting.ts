import { inches } from '../units.ts'

/** A kind of batting, and what may be assumed of it where its label is not at hand. */
export interface Batting {
  readonly title: string
  /** Greatest distance allowed between lines of quilting, mm: an open square or circle may be this large. */
  readonly limitMm: number
  /** Thickness as it lies, mm. */
  readonly loftMm: number
  /** Share of the loft that is left under a stitch. */
  readonly leftUnderStitch: number
  /** Share by which it shrinks in the wash, least and most. */
  readonly shrinkage: readonly [least: number, most: number]
}

/** Thickness of quilting cotton under a stitch, mm: an assumption of the project. */
const FABRIC = 0.25

/**
 * Kinds of batting. Makers disagree: the limits are the careful end of what labels print, and "check your label" holds
 * for every one of them. The share left under a stitch is an assumption of the project, as no measured figure for a
 * quilt sandwich was found: dense cotton keeps a third of its loft, springy wool and polyester an eighth.
 *
 * @source limits: labels copied at generations-quilt-patterns.com/quilt-batting-and-machine-quilting-distances.html
 * and M. Crust's chart of 2020 (melodycrust.blogspot.com); loft: dreambigquilting.com (cotton 1/8 in, wool 1/2 in,
 * polyester of 4 oz 3/8 in), generations-quilt-patterns.com (low loft 1/16, middle 3/32 in); shrinkage of cotton 3 to
 * 5 %: thequiltorchard.blogspot.com 2013/09; of the others: common practice, no source
 */
export const BATTINGS = {
  'cotton-scrim': kind('cotton on scrim', { limit: 8, loft: 1 / 8, left: 1 / 3, shrinkage: [0.03, 0.05] }),
  cotton: kind('needle-punched cotton', { limit: 4, loft: 1 / 8, left: 1 / 3, shrinkage: [0.03, 0.05] }),
  'cotton-unbonded': kind('unbonded cotton', { limit: 2, loft: 1 / 8, left: 1 / 3, shrinkage: [0.03, 0.05] }),
  blend: kind('80/20 cotton and polyester', {
    limit: 3,
    loft: 3 / 32,
    left: 1 / 3,
    shrinkage: [0.02, 0.04],
  }),
  bamboo: kind('bamboo and cotton', { limit: 8, loft: 1 / 8, left: 1 / 3, shrinkage: [0.02, 0.03] }),
  wool: kind('wool', { limit: 3, loft: 1 / 2, left: 1 / 8, shrinkage: [0, 0.03] }),
  polyester: kind('polyester', { limit: 3, loft: 3 / 8, left: 1 / 8, shrinkage: [0, 0] }),
} as const satisfies Readonly<Record<string, Batting>>

export type BattingKind = keyof typeof BATTINGS

interface InchFigures {
  readonly limit: number
  readonly loft: number
  readonly left: number
  readonly shrinkage: readonly [number, number]
}

function kind(title: string, { limit, loft, left, shrinkage }: InchFigures): Batting {
  return { title, limitMm: inches(limit), loftMm: inches(loft), leftUnderStitch: left, shrinkage }
}

/** Thickness of top, batting and backing under a stitch, mm. Assumes two layers of quilting cotton. */
export const compressedThickness = ({ loftMm, leftUnderStitch }: Batting): number =>
  2 * FABRIC + loftMm * leftUnderStitch

/** What a length may be after washing, mm: after the greatest shrinkage, and after the least. */
export const afterWash = (
  mm: number,
  { shrinkage: [least, most] }: Pick<Batting, 'shrinkage'>,
): readonly [number, number] => [mm * (1 - most), mm * (1 - least)]
