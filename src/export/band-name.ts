import type { Quilt } from '../quilt/quilt.ts'
import { LABELS } from './labels.ts'

/** The band's name in words; -1 is the centre, undefined a seam. */
export function bandName(quilt: Quilt, band: number | undefined): string {
  if (band === undefined) return LABELS.names.seam
  if (band < 0) return LABELS.names.centre
  return quilt.bands[band]?.name ?? LABELS.names.band(band + 1)
}
