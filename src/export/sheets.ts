import { defineExporter } from './exporter.ts'
import { writePdf } from './shape/pdf.ts'
import { PAPERS, usualPaper } from './sheets/paper.ts'
import { quiltSheets } from './sheets/quilt-sheets.ts'
import { stripSheets } from './sheets/strip-sheets.ts'

/**
 * Full-size tracing sheets as a PDF: the whole quilt in tiles, or one run and one corner of each band.
 */
export default defineExporter({
  title: 'Full-size tracing sheets',
  purpose: 'tracing',
  extension: 'pdf',
  mediaType: 'application/pdf',
  unit: 'pt',
  options: {
    content: { kind: 'choice', label: 'What to trace', default: 'quilt', of: ['quilt', 'strips'] },
    paper: {
      kind: 'choice',
      label: 'Paper (plan: letter if the plan is in inches, else A4)',
      default: 'plan',
      of: ['plan', 'letter', 'legal', 'tabloid', 'a4', 'a3', 'roll'],
    },
    rollWidth: { kind: 'length', label: 'Width of the roll', default: 914.4, min: 150, max: 2000 },
    orientation: {
      kind: 'choice',
      label: 'Orientation',
      default: 'fewest',
      of: ['fewest', 'portrait', 'landscape'],
    },
    overlap: { kind: 'length', label: 'Overlap of neighbouring sheets', default: 12.7, min: 10, max: 50 },
    margin: { kind: 'length', label: 'Blank margin of a sheet', default: 12.7, min: 10, max: 40 },
    mirrored: { kind: 'toggle', label: 'Mirrored, for tracing on the back', default: false },
    seams: { kind: 'toggle', label: 'Seams in grey', default: true },
    arrows: { kind: 'toggle', label: 'Arrows along the line', default: true },
  },
  write(drawing, options) {
    const { content, paper, rollWidth, seams, arrows, ...wishes } = options
    const named = paper === 'plan' ? usualPaper(drawing.units) : paper
    const set = {
      ...wishes,
      paper: named === 'roll' ? { roll: rollWidth } : PAPERS[named],
      cover: named === 'roll' ? { width: rollWidth, height: PAPERS.letter.height } : PAPERS[named],
      layers: { seams, arrows },
    }
    const pages = content === 'quilt' ? quiltSheets(drawing, set) : stripSheets(drawing, set)
    return writePdf({ title: drawing.title, pages })
  },
})
