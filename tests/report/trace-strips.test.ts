import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import type { TraceStrip } from '../../src/export/drawing.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { boundsOf, flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import { planFromText } from '../../src/pipeline.ts'
import { outlineArea } from '../../src/quilt/outline.ts'
import { bandArea } from '../../src/report/band-area.ts'
import { readPdf } from '../support/read-pdf.ts'

const plan = (file: Record<string, unknown>) => planFromText(JSON.stringify(file), catalogOf(LIBRARY))
const square = plan({
  centre: { width: 20, height: 20 },
  bands: [
    { name: 'tar', width: 1, filler: 'bracket' },
    { name: 'sail', width: 2, filler: 's-echo' },
    { name: 'net', width: 1.5, filler: 'loop-line' },
  ],
  machine: { reach: [10, 10] },
})
const oblong = plan({
  centre: { width: 16, height: 24 },
  bands: [
    { name: 'tar', width: { top: 1, right: 1.25, bottom: 1, left: 1.25 }, filler: 'scallop' },
    { name: 'oak', width: 1 },
    { name: 'sail', width: 2, filler: 'bracket', corners: 'butted' },
  ],
  machine: { reach: [12, 12] },
})
const QUILTS = [
  ['a square quilt', square],
  ['an oblong quilt with uneven widths', oblong],
] as const

const traced = ({ times, turned = 0 }: TraceStrip): number => times + turned
const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0)

describe.each(QUILTS)('the strips of %s', (_, { drawing, report }) => {
  const strips = drawing.strips!

  it('give the whole line of every band when each is traced as often as it says', () => {
    report.bands.forEach((band, index) => {
      const own = strips.filter((strip) => strip.band === index)
      const length = sum(own.map((strip) => traced(strip) * sum(strip.strokes.map(strokeLength))))
      expect(Math.abs(length - band.stitchedMm), band.name).toBeLessThan(0.5)
    })
  })

  it('cover every quilted band, once', () => {
    report.bands.forEach((band, index) => {
      const own = strips.filter((strip) => strip.band === index)
      const area = sum(own.map((strip) => traced(strip) * Math.abs(outlineArea(strip.outline))))
      expect(area, band.name).toBeCloseTo(band.filler ? bandArea(drawing.quilt, index) : 0, 0)
    })
  })

  it('keep the line inside their seams', () => {
    for (const { outline, strokes } of strips) {
      const room = boundsOf(outline)
      const line = boundsOf(strokes.flatMap((stroke) => flattenStroke(stroke, 0.05)))
      expect(line.minY).toBeGreaterThan(room.minY - 0.2)
      expect(line.maxY).toBeLessThan(room.maxY + 0.2)
      expect(line.maxX).toBeLessThan(room.maxX + 0.2)
    }
  })

  it('mark the middle of the side, once a band', () => {
    report.bands.forEach(({ filler }, index) => {
      const names = strips.filter((s) => s.band === index).flatMap((s) => s.marks.map((m) => m.name))
      if (filler) expect(names).toContain('middle of the side')
    })
  })

  it('print as sheets with every piece and how often it is traced', async () => {
    const pdf = (await exportDrawing('sheets', drawing, { content: 'strips' })) as Uint8Array
    const texts = (await readPdf(pdf)).pages.flatMap((page) => page.texts.map((t) => t.text)).join('\n')
    for (const { name, filler } of report.bands) if (filler) expect(texts).toContain(`${name} band: `)
    expect(texts).toMatch(/trace \d+ times/)
  })
})

describe('the strips of a square quilt', () => {
  it('are one corner a band, traced at all four corners', () => {
    for (const band of [0, 1, 2]) {
      const corners = square.drawing.strips!.filter((s) => s.band === band && s.piece === 'corner')
      expect(corners).toHaveLength(1)
      expect(traced(corners[0]!)).toBe(4)
    }
  })

  it('are runs that lie as often turned over as not', () => {
    const runs = square.drawing.strips!.filter((s) => s.piece === 'run')
    expect(runs.length).toBeGreaterThan(0)
    for (const run of runs) expect(run.turned).toBe(run.times)
  })
})

describe('the needle points of a plan', () => {
  it('are one more than its stitches, in the parts that they end', () => {
    const { drawing, report } = square
    const needles = drawing.stitches!
    expect(sum(needles.map((line) => line.length - 1))).toBe(report.stitches.count)
    needles.forEach((line, i) => {
      const parts = line.map((needle) => needle.part)
      expect(parts).toEqual([...parts].sort((a, b) => a - b))
      expect(parts.at(-1)).toBeLessThan(drawing.lines[i]!.parts.length)
    })
  })

  it('make a path by stitches', async () => {
    const csv = (await exportDrawing('csv', square.drawing, { points: 'stitches' })) as string
    expect(csv.split('\n').length).toBeGreaterThan(0.9 * square.report.stitches.count)
  })
})

describe('the picture of a plan', () => {
  const { drawing, report } = oblong
  const picture = async (options: Record<string, unknown> = {}) =>
    (await exportDrawing(
      'picture',
      {
        ...drawing,
        bobbinChanges: [
          [100, 100],
          [200, 80],
        ],
      },
      options,
    )) as string

  it('shows bobbin changes and gaps unless they are left out', async () => {
    const all = await picture()
    expect(all.match(/class="bobbin"/g)).toHaveLength(2)
    expect(all.match(/class="gap"/g)).toHaveLength(2 + report.bands.length)
    expect(all).toContain('largest circle without stitching')
    const bare = await picture({ bobbins: false, gaps: false })
    expect(bare).not.toMatch(/class="(bobbin|gap)"/)
  })

  it('draws gaps at their own size and place', async () => {
    const [circle] = drawing.gaps!
    const drawn = /<g class="gap">.*?<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/.exec(await picture())!
    expect(Number(drawn[1])).toBeCloseTo(circle!.at[0], 1)
    expect(Number(drawn[2])).toBeCloseTo(circle!.at[1], 1)
    expect(2 * Number(drawn[3])).toBeCloseTo(report.gap.largestMm, 1)
  })

  it('shows the thread on the cloth of each quilted band when asked to, under a quilt of the same scale', async () => {
    const height = (svg: string) => Number(/ height="([\d.]+)mm"/.exec(svg)![1])
    const [plain, card] = [await picture(), await picture({ swatch: true })]
    expect(height(plain)).toBeCloseTo(report.quilt.heightMm, 2)
    expect(height(card)).toBeGreaterThan(height(plain))
    const swatches = card.slice(card.indexOf('id="swatches"'))
    for (const { name, filler } of report.bands)
      if (filler) expect(swatches).toContain(`>${name}<`)
      else expect(swatches).not.toContain(`>${name}<`)
  })
})
