import type { PDFDocument } from '@cantoo/pdf-lib'
import { MM_PER } from '../../units.ts'
import { FONT_NAMES, pageContent } from './page-content.ts'
import type { Page, Shape } from './shape.ts'

/** The only date that a file carries: output doesn't depend on when it is made. */
const FIXED_DATE = new Date(Date.UTC(2000, 0, 1))

/** A document of pages. */
export interface Pages {
  readonly title: string
  /** Drawn one after the other, so that they need not all be in memory at once. */
  readonly pages: Iterable<Page>
}

/**
 * The pages as a PDF: vector lines, Helvetica, layers that a viewer can switch off, printed unscaled if the viewer
 * heeds its wish. The library is loaded on first use.
 *
 * @returns the same bytes for the same pages
 * @source ISO 32000-1: 8.11 (optional content), 9.6.2.2 (standard fonts)
 */
export async function writePdf({ title, pages }: Pages): Promise<Uint8Array> {
  const { PDFDocument, PDFHexString, PDFName, PrintScaling, StandardFonts } = await import('@cantoo/pdf-lib')
  const doc = await PDFDocument.create({ updateMetadata: false })
  describe(doc, title)
  doc.catalog.getOrCreateViewerPreferences().setPrintScaling(PrintScaling.None)
  const { context } = doc
  const fonts = context.obj({
    [FONT_NAMES.regular]: (await doc.embedFont(StandardFonts.Helvetica)).ref,
    [FONT_NAMES.bold]: (await doc.embedFont(StandardFonts.HelveticaBold)).ref,
  })
  const layers: string[] = []
  const properties = context.obj({})
  const propertiesRef = context.register(properties)
  for (const page of pages) {
    const { node } = doc.addPage([page.width / MM_PER.pt, page.height / MM_PER.pt])
    node.normalize()
    node.Resources()!.set(PDFName.of('Font'), fonts)
    node.Resources()!.set(PDFName.of('Properties'), propertiesRef)
    for (const name of layersOf(page.shapes)) if (!layers.includes(name)) layers.push(name)
    node.addContentStream(context.register(context.flateStream(pageContent(page, layers))))
  }
  const groups = layers.map((name) =>
    context.register(context.obj({ Type: 'OCG', Name: PDFHexString.fromText(name) })),
  )
  for (const [i, group] of groups.entries()) properties.set(PDFName.of(`L${i}`), group)
  const shown = { Name: PDFHexString.fromText('Layers'), BaseState: 'ON', ON: groups, OFF: [], Order: groups }
  if (groups.length > 0) doc.catalog.set(PDFName.of('OCProperties'), context.obj({ OCGs: groups, D: shown }))
  return doc.save({ useObjectStreams: false })
}

function describe(doc: PDFDocument, title: string): void {
  doc.setTitle(title)
  doc.setLanguage('en')
  doc.setProducer('Ditchline')
  doc.setCreator('Ditchline')
  doc.setCreationDate(FIXED_DATE)
  doc.setModificationDate(FIXED_DATE)
}

/** The names of the layers that the shapes are in, each as often as it is used. */
const layersOf = (shapes: readonly Shape[]): string[] =>
  shapes.flatMap((s) =>
    s.kind === 'layer' ? [s.name, ...layersOf(s.shapes)] : s.kind === 'clip' ? layersOf(s.shapes) : [],
  )
