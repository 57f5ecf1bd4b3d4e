import { EXPORTERS } from '../../export/index.ts'
import type { Params } from '../../motif/contract.ts'
import { PATCH_FILLERS } from '../../pieces/patch-fillers/index.ts'
import type { Catalog } from '../../plan/catalog.ts'
import { planOptions } from '../../plan/options.ts'
import type { FillerEntry, PageCatalog } from './messages.ts'

/** A filler of any family. */
interface Described {
  readonly title: string
  readonly params: Params
  readonly suits?: { readonly min: number; readonly max: number }
  readonly suitsFrom?: number
}

export const entriesOf = (fillers: Readonly<Record<string, Described>> = {}): FillerEntry[] =>
  Object.entries(fillers).map(([id, { title, params, suits, suitsFrom = 0 }]) => ({
    id,
    title,
    params,
    suits: suits ?? { min: suitsFrom, max: Number.POSITIVE_INFINITY },
  }))

/** What the page's menus and fields are made from. */
export const pageCatalog = ({ motifs, centres, corners, units = {} }: Catalog): PageCatalog => ({
  fillers: {
    bands: entriesOf(motifs),
    centre: entriesOf(centres),
    corners: entriesOf(corners),
    patches: entriesOf(PATCH_FILLERS),
  },
  formats: Object.entries(EXPORTERS).map(([id, { title, purpose, extension, options }]) => ({
    id,
    title,
    purpose,
    extension,
    options,
  })),
  units,
  options: planOptions(),
})
