import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import csv from '../../src/export/csv.ts'
import { optionValues } from '../../src/export/exporter.ts'
import { EXPORTERS, exporterOf } from '../../src/export/index.ts'

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

  it('refuses an unknown format and lists the known ones', () => {
    expect(() => exporterOf('toString')).toThrow(/no such format "toString"; there are: .*csv/)
  })

  it('reports every wrong option at once', () => {
    const wrong = { decimals: 99, units: 'furlong', colour: 'red', turn: 1.5 }
    expect(() => optionValues(csv.options, wrong)).toThrow(
      /Decimals is 99; allowed: whole numbers from 2 to 6[\s\S]*"furlong"; allowed: plan, mm, in[\s\S]*no such option "colour"[\s\S]*Turn clockwise/,
    )
  })
})
