import type { Drawing } from './drawing.ts'
import { LABELS } from './labels.ts'

/** The band's name in words; -1 is the centre, or the whole quilt if one filler goes over it, undefined a seam. */
export function bandName(
  { quilt, allOver }: Pick<Drawing, 'quilt' | 'allOver'>,
  band: number | undefined,
): string {
  if (band === undefined) return LABELS.names.seam
  if (band < 0) return allOver === undefined ? LABELS.names.centre : LABELS.names.allOver
  return quilt.bands[band]?.name ?? LABELS.names.band(band + 1)
}
