import { defineExporter } from './exporter.ts'
import { orderPages } from './order/order-pages.ts'
import { writePdf } from './shape/pdf.ts'
import { PAPERS, usualPaper } from './sheets/paper.ts'

/** The order of work as pages to print: what is done in grey, what comes now bold, what to do in words. */
export default defineExporter({
  title: 'Order diagram as pages',
  purpose: 'order',
  extension: 'pdf',
  mediaType: 'application/pdf',
  unit: 'pt',
  options: {
    paper: {
      kind: 'choice',
      label: 'Paper (plan: letter if the plan is in inches, else A4)',
      default: 'plan',
      of: ['plan', 'letter', 'legal', 'tabloid', 'a4', 'a3'],
    },
    columns: { kind: 'count', label: 'Figures side by side (0: what fits best)', default: 0, min: 0, max: 4 },
  },
  write(drawing, { paper, columns }) {
    const named = paper === 'plan' ? usualPaper(drawing.units) : paper
    return writePdf({
      title: drawing.title,
      pages: orderPages(drawing, { columns: columns || 'fit', paper: PAPERS[named] }),
    })
  },
})
