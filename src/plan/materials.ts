import { inches, MM_PER } from '../units.ts'
import { roundLength } from './length.ts'
import type { BobbinClass } from './plan.ts'

/** What may be assumed of a kind of batting where its label is not at hand. */
export interface Batting {
  /** Greatest distance allowed between lines of quilting, mm. */
  readonly limitMm: number
  /** Thickness of top, batting and backing under a stitch, mm. */
  readonly thicknessMm: number
  /** Share by which it may shrink in the wash. */
  readonly shrinkage: number
}

/** Thickness of quilting cotton under a stitch, mm: an assumption of the project. Top and backing are one layer each. */
const FABRIC = 0.25

/** Lengths in inches; `left` is the share of the loft that is left under a stitch. */
const batting = (limit: number, [loft, left]: readonly [number, number], shrinkage: number): Batting => ({
  limitMm: roundLength(inches(limit)),
  thicknessMm: roundLength(2 * FABRIC + inches(loft) * left),
  shrinkage,
})

/**
 * Kinds of batting. Makers disagree: the limits are the careful end of what labels print, and "check your label" holds
 * for every one of them. The share left under a stitch is an assumption of the project.
 *
 * @source limits: labels copied at generations-quilt-patterns.com/quilt-batting-and-machine-quilting-distances.html
 * and M. Crust's chart of 2020 (melodycrust.blogspot.com); loft: dreambigquilting.com (cotton 1/8 in, wool 1/2 in,
 * polyester of 4 oz 3/8 in), generations-quilt-patterns.com (middle loft 3/32 in); shrinkage of cotton up to 5 %:
 * thequiltorchard.blogspot.com 2013/09; of the others: common practice, no source
 */
export const BATTINGS = {
  'cotton-scrim': batting(8, [1 / 8, 1 / 3], 0.05),
  cotton: batting(4, [1 / 8, 1 / 3], 0.05),
  'cotton-unbonded': batting(2, [1 / 8, 1 / 3], 0.05),
  blend: batting(3, [3 / 32, 1 / 3], 0.04),
  wool: batting(3, [1 / 2, 1 / 8], 0.03),
  polyester: batting(3, [3 / 8, 1 / 8], 0),
} as const satisfies Readonly<Record<string, Batting>>

/** Tex (g per km) of a thread whose size is written as `value`, for one strand. */
const TEX_OF = {
  tex: (value: number) => value,
  weight: (value: number) => 1000 / value,
  denier: (value: number) => value / 9,
  nm: (value: number) => 1000 / value,
  ne: (value: number) => TEX_NE / value,
} as const

/** Tex times Ne: grams in a pound over km in a hank of 840 yards. @source definition of pound and yard, 1959 */
const TEX_NE = 453.59237 / ((840 * MM_PER.yd) / 1e6)

export type ThreadSystem = keyof typeof TEX_OF
export const THREAD_SYSTEMS = Object.keys(TEX_OF) as readonly ThreadSystem[]

/**
 * The size of a thread in Tex, g per km.
 *
 * @source Tex x Nm = 1000, Tex = denier / 9, Tex x Ne = 590.5412; weight is km per kg
 * @example toTex('weight', 50) // 20
 */
export const toTex = (system: ThreadSystem, value: number): number => TEX_OF[system](value)

/**
 * Outer diameter and width of a bobbin, mm.
 *
 * @source sewingpartsonline.com, "Understanding bobbins", 20 October 2023
 */
const BOBBIN_SIZE: Readonly<Record<BobbinClass, readonly [diameter: number, width: number]>> = {
  L: [20.3, 8.9],
  '15': [20.3, 11.7],
  M: [24.9, 10.7],
}

/**
 * An estimate of how much thread a bobbin holds, m. A measured figure is always better.
 *
 * @param tex  size of the thread, g per km
 * @source winding space from the bobbin's size, with a 7.5 mm core, 0.8 mm walls and 0.75 g/cm³ assumed
 * @example estimateBobbin('L', 1000 / 60) // 91.8…
 */
export function estimateBobbin(style: BobbinClass, tex: number): number {
  const [diameter, width] = BOBBIN_SIZE[style]
  const area = (Math.PI / 4) * (diameter ** 2 - 7.5 ** 2)
  return (area * (width - 2 * 0.8) * 0.75) / tex
}
