import { describe, expect, it } from 'vitest'
import { bandName } from '../../src/export/band-name.ts'
import { gcodeComments } from '../../src/export/escape.ts'
import { htmlReport } from '../../src/export/html-report.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { LABELS } from '../../src/export/labels.ts'
import type { LineFile } from '../../src/export/line-json.ts'
import { hasThreads, threadName } from '../../src/export/thread-name.ts'
import { strokeThrough } from '../../src/geometry/stroke.ts'
import { lopsidedDrawing } from '../support/sample-drawings.ts'

const named = (...names: string[]) => {
  const drawing = lopsidedDrawing()
  const bands = drawing.quilt.bands.map((band, i) => ({ ...band, name: names[i] ?? band.name }))
  return { ...drawing, quilt: { ...drawing.quilt, bands } }
}
const fields = async (first: string): Promise<string[]> => {
  const text = (await exportDrawing('csv', named(first))) as string
  return text.split('\r\n').filter((line) => line.includes('down'))
}

describe('names in exported files', () => {
  // OWASP, "CSV injection": a cell that begins with =, +, -, @, a tab or a return is run as a formula (from memory).
  it.each(['=HYPERLINK("x")', '+1', '-1', '@sum', '\tcmd', '\rcmd'])(
    'a band called %j is no formula to a spreadsheet',
    async (name) => {
      const [row] = await fields(name)
      expect(row).toMatch(/,"?'[=+\-@\t\r]/)
    },
  )

  it('a band of a plain name stands as it is', async () => {
    expect((await fields('sand'))[0]).toContain(',sand,')
    expect((await fields('a, "b"'))[0]).toContain(',"a, ""b""",')
  })

  // NIST RS274NGC, 3.3.4: a comment whose first word is "MSG," is shown to the operator as a message.
  it('a text that begins like a message to the operator is kept a comment', () => {
    expect(gcodeComments('MSG, stop here')).toEqual(['( MSG, stop here)'])
    expect(gcodeComments('msg')).toEqual(['( msg)'])
    expect(gcodeComments('a MSG, stop')).toEqual(['(a MSG, stop)'])
  })

  it('a band that has no letter left in DXF is called by its number, and what lies in no band by its kind', async () => {
    const drawing = named('\u6e2f', 'rope & sail')
    const seam = {
      kind: 'travel',
      area: 1,
      stroke: strokeThrough([
        [243, 131],
        [243, 160],
      ]),
    } as const
    const lines = [{ ...drawing.lines[0]!, parts: [...drawing.lines[0]!.parts, seam] }]
    const text = (await exportDrawing('dxf', { ...drawing, lines }, { layers: 'band' })) as string
    const layers = [...text.matchAll(/\n8\n(.*?)\n/g)].map(([, layer]) => layer)
    expect([...new Set(layers)]).toEqual(['1', '2-ROPE-SAIL', 'SEAM'])
  })

  it('a band beyond the quilt, the centre, a seam and an all-over have names', async () => {
    const drawing = lopsidedDrawing()
    expect([undefined, -1, 0, 1, 7].map((band) => bandName(drawing, band))).toEqual([
      LABELS.names.seam,
      LABELS.names.centre,
      'sand',
      'rope',
      LABELS.names.band(8),
    ])
    expect(bandName({ ...drawing, allOver: 'meander' }, -1)).toBe(LABELS.names.allOver)
    const stray = lopsidedDrawing()
    const parts = stray.lines[0]!.parts.map((part) => ({
      ...part,
      band: part.kind === 'fill' ? 9 : undefined,
    }))
    const file = JSON.parse(
      (await exportDrawing('line-json', {
        ...stray,
        lines: [{ thread: 'red', parts: parts as never }],
      })) as string,
    ) as LineFile
    expect(file.lines[0]!.parts.map(({ band }) => band)).toEqual([null, null, null])
  })

  it('a thread is told with the bands that it stitches, or alone where it stitches none', () => {
    const drawing = lopsidedDrawing()
    expect(threadName(drawing, '#335577')).toBe('#335577 (sand, rope)')
    expect(threadName(drawing, 'red')).toBe('red')
    expect(hasThreads(drawing)).toBe(false)
    expect(
      hasThreads({ ...drawing, lines: [...drawing.lines, { ...drawing.lines[0]!, thread: 'red' }] }),
    ).toBe(true)
  })
})

describe('words of the sheets and the order of work', () => {
  const { sheets, order } = LABELS

  it('count what is traced as it is and what is turned over', () => {
    expect([
      sheets.times(1),
      sheets.times(3),
      sheets.times(2, 1),
      sheets.times(0, 2),
      sheets.times(0, 1),
    ]).toEqual([
      'trace once',
      'trace 3 times',
      'trace 2 times, and once turned over',
      'trace 2 times, turned over',
      'trace once, turned over',
    ])
    expect([sheets.sheetCount(1), sheets.sheetCount(2)]).toEqual(['1 sheet', '2 sheets'])
    expect(sheets.leftOut(1)).toBe('The sheet without a name has nothing to trace and is left out.')
    expect(sheets.leftOut(2)).toBe('The 2 sheets without a name have nothing to trace and are left out.')
  })

  it('say which thread starts where there are several, and what fills a band if that is known', () => {
    expect([order.begin(1, 1), order.begin(2, 3)]).toEqual([
      'Start here: tie off.',
      'Start thread 2 of 3: tie off.',
    ])
    expect([order.bandRun('sand', 'wave'), order.bandRun('sand', undefined)]).toEqual([
      'Sand band, wave',
      'Sand band',
    ])
    expect([order.centreRun('meander'), order.centreRun(undefined)]).toEqual(['Centre, meander', 'Centre'])
    expect([order.area(2, 5), order.area(1, 1)]).toEqual(['Area 2 of 5', 'The whole line'])
  })
})

describe('a report page', () => {
  const base = { drawing: lopsidedDrawing(), pictureSvg: '<svg/>', figures: [] }

  it('leaves out cautions and the order of work where there are none, and says that there are no warnings', () => {
    const page = htmlReport({ ...base, drawing: { ...base.drawing, lines: [] }, warnings: [], cautions: [] })
    expect(page).toContain(LABELS.html.noWarnings)
    expect(page).not.toContain(LABELS.html.cautions)
    expect(page).not.toContain(LABELS.order.heading)
    const full = htmlReport({ ...base, warnings: [], cautions: ['mind'] })
    expect(full).toContain(LABELS.html.cautions)
    expect(full).toContain(LABELS.order.heading)
  })

  it('says where a warning stands only if it stands somewhere', () => {
    const warned = (at: string) =>
      htmlReport({ ...base, warnings: [{ code: 'check/gap', message: 'a gap', at }], cautions: [] })
    expect(warned('sand')).toContain('<li>a gap <span class="at">at sand</span> <code>check/gap</code></li>')
    expect(warned('')).toContain('<li>a gap <code>check/gap</code></li>')
  })
})
