import { describe, expect, it } from 'vitest'
import { type HtmlReport, htmlReport } from '../../src/export/html-report.ts'
import { FRAME_CAUTIONS } from '../../src/export/labels.ts'
import { harbourDrawing } from '../support/sample-drawings.ts'

const hostile = '</title></style></svg><script>alert(1)</script>"\'&'
const report = (over: Partial<HtmlReport> = {}): HtmlReport => ({
  drawing: harbourDrawing(),
  pictureSvg: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><script>alert(1)</script></svg>',
  figures: [{ label: 'Line', value: '22.5 yd' }],
  warnings: [{ code: 'check/uneven', message: 'rope is denser than sand', at: 'bands[1]' }],
  cautions: FRAME_CAUTIONS,
  ...over,
})

describe('the report as a web page', () => {
  it('needs no other file: no address but a data URI, no script', () => {
    const page = htmlReport(report())
    expect(page).not.toMatch(/<script|<link|@import|url\(/i)
    for (const [, address] of page.matchAll(/(?:src|href)="([^"]*)"/g))
      expect(address).toMatch(/^data:image\/svg\+xml,/)
  })

  it('shows every text as it is', () => {
    const drawing = { ...harbourDrawing({ names: [hostile, 'b', 'c', 'd', 'e'] }), title: hostile }
    const page = htmlReport(
      report({
        drawing,
        figures: [{ label: hostile, value: hostile }],
        tables: [{ caption: hostile, head: [hostile], rows: [[hostile]] }],
        warnings: [{ code: hostile, message: hostile, at: hostile }],
        cautions: [hostile],
        pictureSvg: hostile,
      }),
    )
    expect(page).not.toContain('<script')
    expect(page.match(/<\/style>/g)).toHaveLength(1)
    expect(page.match(/<\/title>/g)!.length).toBe(1 + 8)
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;')
  })

  it('closes every element that it opens', () => {
    const page = htmlReport(
      report({ tables: [{ caption: 'Bands', head: ['Name'], rows: [['sand'], ['rope']] }] }),
    )
    const open: string[] = []
    const alone = new Set(['meta', 'img', 'br'])
    for (const [, close, name, self] of page.matchAll(/<(\/?)([a-z][a-z0-9]*)(?:\s[^<>]*?)?(\/?)>/gi)) {
      if (alone.has(name!) || self) continue
      if (close) expect(open.pop()).toBe(name)
      else open.push(name!)
    }
    expect(open).toEqual([])
  })

  it('has the picture, the figures, the warnings, the order of work and the cautions', () => {
    const page = htmlReport(report())
    for (const said of [
      '22.5 yd',
      'rope is denser than sand',
      'check/uneven',
      'Area 8 of 8',
      'Sand band, bracket',
      'stop switch',
    ])
      expect(page).toContain(said)
    expect(htmlReport(report({ warnings: [] }))).toContain('No warnings.')
  })

  it('survives half a surrogate pair in the picture', () => {
    expect(() => htmlReport(report({ pictureSvg: '<svg>\ud800</svg>' }))).not.toThrow()
  })
})
