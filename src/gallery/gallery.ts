import type { CentreFiller } from '../motif/centre-contract.ts'
import type { Motif } from '../motif/contract.ts'
import type { CornerMotif } from '../motif/corner-contract.ts'
import { centreEntry, cornerEntry, motifEntry } from './gallery-entries.ts'
import type { GallerySection } from './gallery-page.ts'

/** The fillers to show, by name. */
export interface Shown {
  readonly motifs: Readonly<Record<string, Motif>>
  readonly centres: Readonly<Record<string, CentreFiller>>
  readonly corners: Readonly<Record<string, CornerMotif>>
}

/** Draws and measures fillers, each at four sizes. */
export const drawGallery = ({ motifs, centres, corners }: Shown): GallerySection[] => [
  {
    id: 'motifs',
    heading: 'Along a band',
    caption: 'From the middle of a side, where the halves mirror each other, round a mitred corner.',
    entries: Object.entries(motifs).map(([name, motif]) => motifEntry(name, motif)),
  },
  {
    id: 'centres',
    heading: 'In the centre',
    caption: 'In and out at the seam of the centre, so that it can be part of the one line.',
    entries: Object.entries(centres).map(([name, filler]) => centreEntry(name, filler)),
  },
  {
    id: 'corners',
    heading: 'In a cornerstone',
    caption: 'In at one corner of the patch and out at the opposite one.',
    entries: Object.entries(corners).map(([name, motif]) => cornerEntry(name, motif)),
  },
]
