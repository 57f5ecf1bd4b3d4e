import { outlineArea } from '../quilt/outline.ts'
import type { Quilt } from '../quilt/quilt.ts'

/** Area of a band between its two seams, mm². */
export const bandArea = (quilt: Quilt, index: number): number =>
  Math.abs(outlineArea(quilt.rings[index + 1]!)) - Math.abs(outlineArea(quilt.rings[index]!))
