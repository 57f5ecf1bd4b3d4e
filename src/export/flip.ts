import type { Affine } from '../geometry/affine.ts'

/**
 * The one place where y turns round: from y down (quilt, SVG) to y up (PDF, DXF, machine paths), so that y = `height`
 * becomes 0 and 0 becomes `height`.
 */
export const flipY = (height: number): Affine => ({ a: 1, b: 0, c: 0, d: -1, e: 0, f: height })
