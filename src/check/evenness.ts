import type { Problem } from '../error.ts'
import { assertWithin } from '../stitch/within-limits.ts'

/** How much is stitched in one part of the quilt. */
export interface Stitched {
  readonly name: string
  /** Length of line in it, mm. */
  readonly lengthMm: number
  /** mm² */
  readonly areaMm2: number
}

export interface Density {
  readonly name: string
  /** mm of line per cm² */
  readonly mmPerCm2: number
  /** How many times denser than the one before it, or sparser: at least 1; undefined for the first. */
  readonly ratio: number | undefined
}

export interface Evenness {
  readonly densities: readonly Density[]
  /** The greatest ratio between neighbours; 1 if there are none. */
  readonly worstRatio: number
  readonly warnings: readonly Problem[]
}

/** A ratio between neighbours above this deserves a warning: the sparse one bubbles. Common practice, no source. */
export const UNEVEN_RATIO = 3

/**
 * Compares the amount of stitching of neighbours.
 *
 * @param parts      in order, each a neighbour of the one before: the bands from the inside out
 * @param warnAbove  the ratio above which a warning is given
 * @throws PlanError `check/evenness` for an area that is not above 0, a length below 0 or a ratio below 1
 */
export function measureEvenness(parts: readonly Stitched[], warnAbove: number = UNEVEN_RATIO): Evenness {
  assertWithin('check/evenness', [
    { at: 'warnAbove', value: warnAbove, min: 1, max: 1e6, unit: '(a ratio)' },
    ...parts.flatMap(({ name, lengthMm, areaMm2 }) => [
      { at: name, value: lengthMm, min: 0, max: 1e12, unit: 'mm of line' },
      { at: name, value: areaMm2, min: Number.MIN_VALUE, max: 1e12, unit: 'mm²' },
    ]),
  ])
  const amounts = parts.map(({ lengthMm, areaMm2 }) => (lengthMm / areaMm2) * 100)
  const densities = parts.map(({ name }, i): Density => {
    const ratio = i > 0 ? ratioOf(amounts[i - 1]!, amounts[i]!) : undefined
    return { name, mmPerCm2: amounts[i]!, ratio }
  })
  return {
    densities,
    worstRatio: Math.max(1, ...densities.map(({ ratio }) => ratio ?? 1)),
    warnings: densities.flatMap((_, i) => warningAt(densities, i, warnAbove)),
  }
}

/** 1 for two that are both bare; Infinity for one that is bare beside one that is not. */
function ratioOf(a: number, b: number): number {
  return a === b ? 1 : Math.max(a, b) / Math.min(a, b)
}

function warningAt(densities: readonly Density[], i: number, warnAbove: number): Problem[] {
  const [before, here] = [densities[i - 1], densities[i]!]
  if (!before || here.ratio === undefined || here.ratio <= warnAbove) return []
  const [dense, sparse] = before.mmPerCm2 > here.mmPerCm2 ? [before, here] : [here, before]
  const times = Number.isFinite(here.ratio)
    ? `${here.ratio.toFixed(1)} times as densely as`
    : 'beside the bare'
  const message = `"${dense.name}" is stitched ${times} "${sparse.name}"; past ${warnAbove} the sparse one bubbles`
  return [{ code: 'check/uneven', message, at: here.name, hint: `quilt "${sparse.name}" more closely` }]
}
