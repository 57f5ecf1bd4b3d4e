import { assertWithin } from './within-limits.ts'

/** Outer size of a bobbin, mm. */
export interface BobbinSize {
  readonly diameter: number
  readonly width: number
}

/**
 * Bobbins by style.
 *
 * @source sewingpartsonline.com, "Understanding bobbins", 20 October 2023 (15, L, M); hooptalent.com (15, G)
 */
export const BOBBINS = {
  L: { diameter: 20.3, width: 8.9 },
  '15': { diameter: 20.3, width: 11.7 },
  G: { diameter: 21.9, width: 9.9 },
  M: { diameter: 24.9, width: 10.7 },
} as const satisfies Readonly<Record<string, BobbinSize>>

export type BobbinStyle = keyof typeof BOBBINS

/** What is assumed inside a bobbin: core and walls, mm, and the density of wound thread, g/cm³. */
const INSIDE = { core: 7.5, wall: 0.8, density: 0.75 }

/**
 * An estimate of how much thread a bobbin holds, m. Bobbins differ in how tightly they are wound: a measured figure
 * is always better.
 *
 * @param style  the bobbin's style
 * @param tex    size of the thread, g/km
 * @throws PlanError `thread/size` if `tex` is not above 0
 * @source winding space from the style's size, with a 7.5 mm core, 0.8 mm walls and 0.75 g/cm³ assumed
 * @example estimateBobbin('L', 1000 / 60) // 91.8…
 */
export function estimateBobbin(style: BobbinStyle, tex: number): number {
  assertWithin('thread/size', [{ at: 'thread.tex', value: tex, min: 1e-3, max: 1e6, unit: 'tex' }])
  const { diameter, width } = BOBBINS[style]
  const area = (Math.PI / 4) * (diameter ** 2 - INSIDE.core ** 2)
  const milligrams = area * (width - 2 * INSIDE.wall) * INSIDE.density
  return milligrams / tex
}

/** What a bobbin is taken to hold, and whether that is known. */
export interface BobbinCapacity {
  /** m */
  readonly capacityM: number
  readonly estimated: boolean
  /** Where the figure comes from, for the report. */
  readonly note: string
}

/**
 * A bobbin's capacity as measured, or else as estimated from its style and the thread.
 *
 * @throws PlanError `thread/bobbin` for a capacity, `thread/size` for a size that is not above 0
 */
export function bobbinCapacity(
  given: { readonly capacityM: number } | { readonly style: BobbinStyle; readonly tex: number },
): BobbinCapacity {
  if ('capacityM' in given) {
    const { capacityM } = given
    assertWithin('thread/bobbin', [{ at: 'thread.bobbin', value: capacityM, min: 1e-3, max: 1e5, unit: 'm' }])
    return { capacityM, estimated: false, note: 'as given' }
  }
  const { style, tex } = given
  const note = `an estimate for style ${style} and Tex ${Number(tex.toPrecision(3))}; measure your own`
  return { capacityM: estimateBobbin(style, tex), estimated: true, note }
}
