import type { BandPlan } from '../plan/plan.ts'

/** Whether anything is stitched in a band: along it, on one of its sides, or in its patches. */
export const isQuilted = ({ filler, sides, pieced }: BandPlan): boolean =>
  filler !== undefined ||
  Object.values(sides).some((side) => side !== 'none') ||
  Object.keys(pieced?.fillers ?? {}).length > 0
