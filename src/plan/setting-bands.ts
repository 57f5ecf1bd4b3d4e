import type { OutlineName } from '../quilt/outline-names.ts'
import type { BandPlan, Plan } from './plan.ts'

/** The unit that makes an outline on point upright, and the name of its patches. */
export const SETTING_UNIT = 'setting-triangles'
export const SETTING_PATCH = 'triangle'

/** Whether a band is four setting triangles. */
export const isSetting = ({ pieced }: Pick<BandPlan, 'pieced'>): boolean =>
  pieced?.unit === SETTING_UNIT && pieced.polygons === undefined

/**
 * The outline that a band goes round: the centre's shape, or a rectangle once setting triangles have made it upright. Of the
 * band after the last: the outline of the quilt.
 */
export const outlineInside = (
  { centre, bands }: { readonly centre: Pick<Plan['centre'], 'shape'>; readonly bands: readonly BandPlan[] },
  band: number,
): OutlineName =>
  centre.shape === 'on-point' && bands.slice(0, band).some(isSetting) ? 'rectangle' : centre.shape
