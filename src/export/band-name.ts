import type { Quilt } from '../quilt/quilt.ts'

/** The band's name in words; -1 is the centre, undefined a seam. */
export function bandName(quilt: Quilt, band: number | undefined): string {
  if (band === undefined) return 'seam'
  if (band < 0) return 'centre'
  return quilt.bands[band]?.name ?? `band ${band + 1}`
}
