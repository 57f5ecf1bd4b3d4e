import type { Filler } from '../motif/draw-stretch.ts'
import type { PatchFill } from './patch-fillers/contract.ts'

/** A filler for each patch name of a pieced band; what isn't named is left unquilted. */
export interface PatchFillers {
  readonly patches: Readonly<Record<string, PatchFill | undefined>>
}

/** What fills a band: one filler that runs along it (over patch seams, if there are any), or fillers by patch. */
export type BandFiller = Filler | PatchFillers

export const isByPatch = (filler: BandFiller | undefined): filler is PatchFillers =>
  filler !== undefined && 'patches' in filler

/** The filler that runs along the band, if one does. */
export const alongOf = (filler: BandFiller | undefined): Filler | undefined =>
  filler === undefined || isByPatch(filler) ? undefined : filler
