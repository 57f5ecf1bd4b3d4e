import type { Filler } from '../motif/draw-stretch.ts'
import type { PatchFill } from './patch-fillers/contract.ts'

/** A filler for each patch name of a pieced band; what isn't named is left unquilted. */
export interface PatchFillers {
  readonly patches: Readonly<Record<string, PatchFill | undefined>>
}

/**
 * A filler for each strip of a band by itself, clockwise from the top. Strips end where they were sewn: on the mitre, on
 * their neighbour, or at the cornerstone, which has a filler of its own.
 */
export interface StripFillers {
  readonly strips: readonly (Filler | undefined)[]
  readonly cornerstone?: PatchFill
}

/** What fills a band: one filler that runs along it (over patch seams, if there are any), or fillers by patch or strip. */
export type BandFiller = Filler | PatchFillers | StripFillers

export const isByPatch = (filler: BandFiller | undefined): filler is PatchFillers =>
  filler !== undefined && 'patches' in filler

export const isByStrip = (filler: BandFiller | undefined): filler is StripFillers =>
  filler !== undefined && 'strips' in filler

/** The filler that runs along a side of the band, if one does. */
export function alongOn(filler: BandFiller | undefined, side: number): Filler | undefined {
  if (filler === undefined || isByPatch(filler)) return undefined
  return isByStrip(filler) ? filler.strips[side] : filler
}

/** A filler that runs along the band on some side, if there is one. */
export function alongOf(filler: BandFiller | undefined): Filler | undefined {
  if (filler === undefined || isByPatch(filler)) return undefined
  return isByStrip(filler) ? filler.strips.find((strip) => strip !== undefined) : filler
}

/** The fillers of a band's patches by name; none if it has no patches to fill. */
export function patchFillersOf(filler: BandFiller | undefined): PatchFillers | undefined {
  if (isByPatch(filler)) return filler
  if (isByStrip(filler) && filler.cornerstone) return { patches: { cornerstone: filler.cornerstone } }
  return undefined
}
