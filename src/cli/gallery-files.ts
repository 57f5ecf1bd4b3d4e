import { drawGallery, type Shown } from '../gallery/gallery.ts'
import { galleryPage } from '../gallery/gallery-page.ts'
import { entrySheet, overviewSheet } from '../gallery/gallery-sheet.ts'
import type { OutputFile } from './files.ts'
import { pngOf } from './png.ts'

/** Fillers beside each other in the overview. */
const COLUMNS = 3

/**
 * The gallery's files: the page, and with `png` a picture of each filler and one of each kind.
 *
 * @throws PlanError `png/unavailable`
 */
export async function galleryFiles(shown: Shown, { png }: { png: boolean }): Promise<OutputFile[]> {
  const sections = drawGallery(shown)
  const page = { name: 'index.html', content: galleryPage(sections) }
  if (!png) return [page]
  const files: OutputFile[] = [page]
  for (const { id, entries } of sections) {
    for (const entry of entries)
      files.push({ name: `${id}-${entry.name}.png`, content: await pngOf(entrySheet(entry)) })
    if (entries.length > 1)
      files.push({ name: `${id}.png`, content: await pngOf(overviewSheet(entries, COLUMNS)) })
  }
  return files
}
