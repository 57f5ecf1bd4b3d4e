import { readdirSync, readFileSync } from 'node:fs'
import { Resvg } from '@resvg/resvg-js'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import csv from '../../src/export/csv.ts'
import { optionValues } from '../../src/export/exporter.ts'
import { EXPORTERS, type ExporterId, exportDrawing, exporterOf } from '../../src/export/index.ts'
import { anyText } from '../support/any-text.ts'
import { refusalsOf } from '../support/refusals.ts'
import { lopsidedDrawing } from '../support/sample-drawings.ts'

const folder = new URL('../../src/export/', import.meta.url)

describe('the catalog of exporters', () => {
  it('lists every file of the folder that declares one, and no other', () => {
    const declared = readdirSync(folder)
      .filter((file) => file.endsWith('.ts'))
      .filter((file) =>
        readFileSync(new URL(file, folder), 'utf8').includes('export default defineExporter('),
      )
      .map((file) => file.replace(/\.ts$/, ''))
    expect(Object.keys(EXPORTERS).sort()).toEqual(declared.sort())
  })

  it.each(Object.entries(EXPORTERS))(
    'describes the options of %s with defaults within their limits',
    (_, exporter) => {
      expect(() =>
        optionValues(
          exporter.options,
          Object.fromEntries(Object.entries(exporter.options).map(([k, p]) => [k, p.default])),
        ),
      ).not.toThrow()
    },
  )

  it.each(Object.keys(EXPORTERS))(
    'lets %s write the same for the same input, whatever the texts say',
    async (id) => {
      await fc.assert(
        fc.asyncProperty(anyText, async (text) => {
          const base = lopsidedDrawing()
          const bands = base.quilt.bands.map((band) => ({ ...band, name: text }))
          const drawing = {
            ...base,
            title: `${text}\ud800`,
            fillers: [text, text],
            quilt: { ...base.quilt, bands },
          }
          const [first, second] = [await exportDrawing(id, drawing), await exportDrawing(id, drawing)]
          expect(Buffer.from(first).equals(Buffer.from(second))).toBe(true)
          // Read by an XML parser that is not ours
          if (EXPORTERS[id as ExporterId].extension === 'svg')
            expect(() => new Resvg(first as string)).not.toThrow()
        }),
        { seed: 1, numRuns: 5, examples: [['\ud800'], ['</svg>'], ['(%)\n0\nEOF']] },
      )
    },
  )

  it('refuses an unknown format and lists the known ones', () => {
    expect(() => exporterOf('toString')).toThrow(/no such format "toString"; there are: .*csv/)
  })

  it('tells of each kind of option what is allowed, and takes what lies at its limits', () => {
    const options = {
      arcs: { kind: 'toggle', label: 'Arcs', default: false },
      margin: { kind: 'length', label: 'Margin', default: 5, min: 1, max: 9 },
      share: { kind: 'ratio', label: 'Share', default: 0.5, min: 0, max: 1 },
      pages: { kind: 'count', label: 'Pages', default: 2, min: 1, max: 3 },
      paper: { kind: 'text', label: 'Paper', default: 'A4', pattern: /^A\d$/ },
    } as const
    const messages = (given: object) =>
      refusalsOf(() => optionValues(options, given as Record<string, unknown>))
    expect(messages({ arcs: 1, margin: 0.9, share: 1.1, pages: 1.5, paper: 'A' })).toEqual([
      'export/bad-option arcs: Arcs is 1; allowed: true, false',
      'export/bad-option margin: Margin is 0.9; allowed: from 1 to 9 mm',
      'export/bad-option share: Share is 1.1; allowed: numbers from 0 to 1',
      'export/bad-option pages: Pages is 1.5; allowed: whole numbers from 1 to 3',
      'export/bad-option paper: Paper is "A"; allowed: text like "A4"',
    ])
    expect(messages({ arcs: 'true', margin: '5', share: Number.NaN })).toHaveLength(3)
    for (const given of [
      { arcs: true, margin: 1, share: 0, pages: 1, paper: 'A3' },
      { arcs: false, margin: 9, share: 1, pages: 3 },
    ])
      expect(optionValues(options, given)).toMatchObject(given)
    expect(optionValues(options, {})).toEqual({ arcs: false, margin: 5, share: 0.5, pages: 2, paper: 'A4' })
  })

  it('reports every wrong option at once', () => {
    const wrong = { decimals: 99, units: 'furlong', colour: 'red', turn: 1.5 }
    expect(() => optionValues(csv.options, wrong)).toThrow(
      /Decimals is 99; allowed: whole numbers from 2 to 6[\s\S]*"furlong"; allowed: plan, mm, in[\s\S]*no such option "colour"[\s\S]*Turn clockwise/,
    )
  })
})
