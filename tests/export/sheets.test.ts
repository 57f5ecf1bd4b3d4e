import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Drawing } from '../../src/export/drawing.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { textWidth } from '../../src/export/shape/text-width.ts'
import { boxedLine, cutLine } from '../../src/export/sheets/cut-line.ts'
import { planSheets } from '../../src/export/sheets/sheet-plan.ts'
import {
  indexAlong,
  movedTilings,
  ownOf,
  placesOf,
  sheetName,
  showsOf,
  tilingFor,
  windowOf,
} from '../../src/export/sheets/tiling.ts'
import { distance, lerp, type Point } from '../../src/geometry/point.ts'
import { boundsOf, flattenStroke, polylineLength, strokeThrough } from '../../src/geometry/stroke.ts'
import { furthestFrom } from '../support/nearest-line.ts'
import { type PdfPage, readPdf } from '../support/read-pdf.ts'
import { harbourDrawing, lopsidedDrawing } from '../support/sample-drawings.ts'

const sheets = async (drawing: Drawing, options: Record<string, unknown> = {}) =>
  readPdf((await exportDrawing('sheets', drawing, options)) as Uint8Array)

/** A quilt of 18 by 17 in: a few letter sheets. */
const small = (): Drawing => harbourDrawing({ centre: 200, widths: [25, 40, 50] })
/** A quilt of 50 in with an empty middle. */
const hollow = (): Drawing => harbourDrawing({ centre: 1000, widths: [40] })

const stitchLines = (page: PdfPage): Point[][] =>
  page.paths.filter((p) => p.layer === 'Stitch line').flatMap((p) => p.polylines.map((l) => [...l]))

/** The middles of the ringed crosses: the paths of that layer that close. */
const registerMarks = (page: PdfPage): Point[] =>
  page.paths
    .filter((p) => p.layer === 'Register marks' && p.polylines.length === 1)
    .filter(({ polylines: [ring] }) => distance(ring![0]!, ring!.at(-1)!) < 1e-6)
    .map(({ polylines: [ring] }) => {
      const box = boundsOf(ring!)
      return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2] as const
    })

const nameOf = (page: PdfPage): string => page.texts.map((t) => t.text).find((t) => /^[A-Z]+\d+$/.test(t))!

/** The marks on one edge of a sheet, from its start to its end. */
function marksOn(page: PdfPage, edge: 'left' | 'right' | 'top' | 'bottom'): Point[] {
  const marks = registerMarks(page)
  const axis = edge === 'left' || edge === 'right' ? 0 : 1
  const values = marks.map((m) => m[axis])
  const extreme = edge === 'left' || edge === 'top' ? Math.min(...values) : Math.max(...values)
  return marks.filter((m) => Math.abs(m[axis] - extreme) < 0.05).sort((a, b) => a[1 - axis]! - b[1 - axis]!)
}

/**
 * Lays printed sheets together by their register marks alone, as one would on a table.
 *
 * @returns for each sheet's name how far it lies from the first; marks that don't meet fail the test
 */
function layTogether(pages: readonly PdfPage[]): Map<string, Point> {
  const byName = new Map(pages.map((p) => [nameOf(p), p]))
  const laid = new Map<string, Point>([[nameOf(pages[0]!), [0, 0]]])
  const queue = [nameOf(pages[0]!)]
  for (const name of queue) {
    const [row, column] = [name.charCodeAt(0), Number(name.slice(1))]
    const beside = [
      [`${String.fromCharCode(row)}${column + 1}`, 'right', 'left'],
      [`${String.fromCharCode(row)}${column - 1}`, 'left', 'right'],
      [`${String.fromCharCode(row + 1)}${column}`, 'bottom', 'top'],
      [`${String.fromCharCode(row - 1)}${column}`, 'top', 'bottom'],
    ] as const
    for (const [other, edge, opposite] of beside) {
      const page = byName.get(other)
      if (!page) continue
      const [mine, theirs] = [marksOn(byName.get(name)!, edge), marksOn(page, opposite)]
      expect(mine).toHaveLength(3)
      expect(theirs).toHaveLength(3)
      const offsets = mine.map((m, i): Point => [m[0] - theirs[i]![0], m[1] - theirs[i]![1]])
      for (const o of offsets) expect(distance(o, offsets[0]!)).toBeLessThan(0.02)
      const at = laid.get(name)!
      const placed: Point = [at[0] + offsets[0]![0], at[1] + offsets[0]![1]]
      if (laid.has(other)) expect(distance(laid.get(other)!, placed)).toBeLessThan(0.05)
      else {
        laid.set(other, placed)
        queue.push(other)
      }
    }
  }
  expect(laid.size).toBe(pages.length)
  return laid
}

/** The page's marks as they would lie if it were put down turned by a few degrees. */
const turnedAbout = (page: PdfPage): PdfPage => ({
  ...page,
  paths: page.paths.map((path) => ({
    ...path,
    polylines: path.polylines.map((l) => l.map(([x, y]) => [x + y * 0.002, y - x * 0.002] as const)),
  })),
})

/** All sheets' lines as laid together, then moved so that their box starts where the quilt's line starts. */
function assembled(pages: readonly PdfPage[], line: readonly Point[]): Point[][] {
  const laid = layTogether(pages)
  const pieces = pages.flatMap((page) => {
    const [dx, dy] = laid.get(nameOf(page))!
    return stitchLines(page).map((l) => l.map(([x, y]): Point => [x + dx, y + dy]))
  })
  const [is, should] = [boundsOf(pieces.flat()), boundsOf(line)]
  const [dx, dy] = [should.minX - is.minX, should.minY - is.minY]
  return pieces.map((l) => l.map(([x, y]): Point => [x + dx, y + dy]))
}

const lineOf = (drawing: Drawing): Point[] =>
  drawing.lines.flatMap((l) => l.parts.flatMap((p) => flattenStroke(p.stroke, 0.02)))

function* samples(polyline: readonly Point[], step: number): Generator<Point> {
  for (let i = 1; i < polyline.length; i++) {
    const count = Math.ceil(distance(polyline[i - 1]!, polyline[i]!) / step)
    for (let k = 0; k < count; k++) yield lerp(polyline[i - 1]!, polyline[i]!, k / count)
  }
}

describe('tracing sheets', () => {
  // ISO 216 and ANSI/ASME Y14.1 sizes in points (check: A4 595.2756 x 841.8898)
  it.each([
    ['letter', 612, 792],
    ['legal', 612, 1008],
    ['tabloid', 792, 1224],
    ['a4', 595.2756, 841.8898],
    ['a3', 841.8898, 1190.5512],
  ])('have the size of %s', async (paper, width, height) => {
    const { pages } = await sheets(small(), { paper, orientation: 'portrait' })
    for (const page of pages) {
      expect(page.widthPt).toBeCloseTo(width, 3)
      expect(page.heightPt).toBeCloseTo(height, 3)
    }
  })

  it('carry test squares of one inch and five centimetres, right within 0.05 mm', async () => {
    const { pages } = await sheets(small(), { paper: 'a4' })
    const sides = pages[0]!.paths
      .filter((p) => p.layer === 'Labels' && p.paint === 'stroke' && p.polylines[0]!.length === 5)
      .map((p) => boundsOf(p.polylines[0]!))
      .map((b) => [b.maxX - b.minX, b.maxY - b.minY])
    for (const side of [25.4, 50])
      expect(sides.some(([w, h]) => Math.abs(w! - side) < 0.05 && Math.abs(h! - side) < 0.05)).toBe(true)
    expect(pages[0]!.texts.map((t) => t.text).join(' ')).toMatch(/Print at 100 percent/)
  })

  it.each([
    ['letter portrait', { paper: 'letter', orientation: 'portrait' }],
    ['A4 landscape', { paper: 'a4', orientation: 'landscape', overlap: 20 }],
  ])('laid together by their register marks give back the line: %s', async (_, options) => {
    const drawing = small()
    const { pages } = await sheets(drawing, options)
    const line = lineOf(drawing)
    const pieces = assembled(pages.slice(1), line)
    // 0.03 mm of flattening and 0.005 mm of rounding a coordinate
    expect(furthestFrom(pieces, samples(line, 3))).toBeLessThan(0.06)
    expect(furthestFrom([line], pieces.flat())).toBeLessThan(0.06)
  })

  it('laid together mirrored give back the mirrored line', async () => {
    const drawing = small()
    const line = lineOf(drawing).map(([x, y]): Point => [-x, y])
    const mirrored = await sheets(drawing, { mirrored: true })
    expect(furthestFrom(assembled(mirrored.pages.slice(1), line), samples(line, 3))).toBeLessThan(0.06)
    const plain = await sheets(drawing)
    // The check sees a mirror: the sample is 10 percent wider in its left bands
    expect(furthestFrom(assembled(plain.pages.slice(1), line), samples(line, 3))).toBeGreaterThan(1)
  })

  it('leave out sheets with nothing on them and say so', async () => {
    const { pages } = await sheets(hollow())
    for (const page of pages.slice(1)) expect(stitchLines(page).length).toBeGreaterThan(0)
    const names = pages.slice(1).map(nameOf)
    expect(new Set(names).size).toBe(names.length)
    const last = names.at(-1)!
    expect(names.length).toBeLessThan((last.charCodeAt(0) - 64) * Number(last.slice(1)))
    expect(pages[0]!.texts.map((t) => t.text).join(' ')).toMatch(/nothing to trace/)
  })

  it('say at their edges which sheets are next, and name no sheet that is left out', async () => {
    const { pages } = await sheets(hollow())
    const names = new Set(pages.slice(1).map(nameOf))
    for (const page of pages.slice(1)) {
      const own = nameOf(page)
      const said = page.texts.map((t) => t.text).filter((t) => /^[A-Z]+\d+$/.test(t) && t !== own)
      const [row, column] = [own.charCodeAt(0), Number(own.slice(1))]
      const beside = [
        [0, -1],
        [0, 1],
        [-1, 0],
        [1, 0],
      ]
        .map(([r, c]) => `${String.fromCharCode(row + r!)}${column + c!}`)
        .filter((name) => names.has(name))
      expect(said.sort()).toEqual(beside.sort())
    }
  })

  it('take the orientation that needs fewer sheets', async () => {
    const count = async (orientation: string) =>
      (await sheets(lopsidedDrawing(), { orientation, paper: 'letter' })).pages.length
    expect(await count('fewest')).toBe(Math.min(await count('portrait'), await count('landscape')))
  })

  it('fit the whole quilt on one page of a wide roll', async () => {
    const drawing = small()
    const { pages } = await sheets(drawing, { paper: 'roll', rollWidth: 914.4 })
    expect(pages).toHaveLength(2)
    const { widthPt, heightPt } = pages[1]!
    expect(Math.max(widthPt, heightPt)).toBeCloseTo(2592, 2)
    expect(polylineLength(stitchLines(pages[1]!).flat()) / polylineLength(lineOf(drawing))).toBeCloseTo(1, 3)
  })

  it('put line, guidance, seams, marks and labels into layers', async () => {
    const { layers, title } = await sheets(small())
    expect([...layers].sort()).toEqual([
      'Direction and order',
      'Labels',
      'Register marks',
      'Seams',
      'Stitch line',
    ])
    expect(title).toBe('Harbour raffle quilt')
  })

  it('name the bands on the sheets that show them', async () => {
    const { pages } = await sheets(small(), { paper: 'roll', rollWidth: 914.4 })
    const texts = pages[1]!.texts.map((t) => t.text)
    for (const name of ['sand', 'rope', 'tide']) expect(texts.filter((t) => t === name)).toHaveLength(4)
  })

  it('ask the viewer to print them unscaled', async () => {
    // ISO 32000-1, table 150: PrintScaling None
    expect((await sheets(small())).printScaling).toBe('None')
  })

  it('leave out seams and arrows when they are not wanted', async () => {
    const { pages } = await sheets(small(), { seams: false, arrows: false })
    for (const page of pages.slice(1)) {
      expect(page.paths.filter((p) => p.layer === 'Seams')).toEqual([])
      expect(page.paths.filter((p) => p.layer === 'Direction and order' && p.paint === 'fill')).toEqual([])
    }
  })

  it('have arrows that lie on the line and point along it', async () => {
    const drawing = lopsidedDrawing()
    const { pages } = await sheets(drawing, { paper: 'roll', rollWidth: 914.4 })
    const arrows = pages[1]!.paths.filter((p) => p.layer === 'Direction and order' && p.paint === 'fill')
    expect(arrows.length).toBe(Math.round(polylineLength(lineOf(drawing)) / 60))
    // The first, 30 mm from the start of a line that runs to the right
    const [tip, a, b] = arrows[0]!.polylines[0]!
    expect(tip![1]).toBeCloseTo((a![1] + b![1]) / 2, 1)
    expect(tip![0]).toBeGreaterThan(a![0])
    const [start] = stitchLines(pages[1]!)[0]!
    expect((tip![0] + a![0]) / 2 - start![0]).toBeCloseTo(30, 1)
    expect(tip![1]).toBeCloseTo(start![1], 1)
  })

  it('are a first page alone for a drawing without a line', async () => {
    expect((await sheets({ ...lopsidedDrawing(), lines: [] })).pages).toHaveLength(1)
  })

  it('refuse margins that leave no room', async () => {
    await expect(sheets(small(), { paper: 'roll', rollWidth: 150, margin: 40, overlap: 50 })).rejects.toThrow(
      /margin of 40 mm and an overlap of 50 mm leave no room/,
    )
  })

  it('are laid together wrongly, and the check sees it, when a sheet is turned about', async () => {
    const { pages } = await sheets(small(), { paper: 'letter', orientation: 'portrait' })
    const turned = pages.slice(1).map((page, i) => (i === 1 ? turnedAbout(page) : page))
    expect(() => layTogether(turned)).toThrow()
  })

  it('number every area once and flag start and end', async () => {
    const { pages } = await sheets(small(), { paper: 'roll', rollWidth: 914.4 })
    const texts = pages[1]!.texts.map((t) => t.text)
    for (let area = 1; area <= 8; area++) expect(texts.filter((t) => t === String(area))).toHaveLength(1)
    expect(texts).toContain('START and END')
  })

  it('are the same bytes for the same input', async () => {
    const write = async () => (await exportDrawing('sheets', small())) as Uint8Array
    expect(Buffer.from(await write()).equals(Buffer.from(await write()))).toBe(true)
  })

  it('survive any title', async () => {
    const title = ')(\\ \u{1F9F5} \u2033\u2192 \u00e9\u0159 \u0000\n(('
    const { pages } = await sheets({ ...lopsidedDrawing(), title })
    expect(pages[0]!.texts.map((t) => t.text).join('')).toContain(')(\\ ? "-> \u00e9r')
  })

  it('refuse a drawing without strips when strips are asked for', async () => {
    await expect(sheets(lopsidedDrawing(), { content: 'strips' })).rejects.toThrow(/no strips/)
  })
})

describe('tracing strips', () => {
  const wave = (length: number) =>
    strokeThrough([
      [0, 40],
      [length / 2, 0],
      [length, 40],
    ])
  const outline = (length: number): Point[] => [
    [0, 0],
    [length, 0],
    [length, 40],
    [0, 40],
  ]
  const strip = (band: number, piece: 'run' | 'corner', length: number) => ({
    band,
    piece,
    outline: outline(length),
    strokes: [wave(length)],
    times: 8,
    marks: [{ at: [length / 2, 0] as const, name: 'middle' }],
  })

  it('show small pieces together and a long run over several sheets, at full size', async () => {
    const strips = [strip(0, 'run', 120), strip(0, 'corner', 60), strip(1, 'run', 700)]
    const { pages } = await sheets({ ...lopsidedDrawing(), strips }, { content: 'strips', paper: 'letter' })
    const lengths = pages.slice(1).map((p) => stitchLines(p).reduce((sum, l) => sum + polylineLength(l), 0))
    // Two straight lines each: 2 hypot(60, 40) + 2 hypot(30, 40)
    expect(lengths[0]).toBeCloseTo(2 * Math.hypot(60, 40) + 100, 1)
    const texts = pages.flatMap((p) => p.texts.map((t) => t.text)).join(' ')
    expect(texts).toMatch(/sand band: straight run/)
    expect(texts).toMatch(/sand band: corner/)
    expect(texts).toMatch(/rope band: straight run, trace 8 times/)
    expect(texts).toMatch(/middle/)
    expect(pages.length).toBeGreaterThan(3)
    const long = assembled(pages.slice(2), flattenStroke(wave(700), 1))
    const straight: Point[] = [
      [0, 40],
      [350, 0],
      [700, 40],
    ]
    expect(furthestFrom([straight], long.flat())).toBeLessThan(0.06)
  })
})

describe('tiling', () => {
  const size = fc.double({ min: 50, max: 3000, noNaN: true })
  it('covers the box, with own parts that share it out and an overlap as asked', () => {
    fc.assert(
      fc.property(size, size, fc.double({ min: 5, max: 50, noNaN: true }), (width, height, overlap) => {
        const box = { minX: -70, minY: 30, maxX: width - 70, maxY: height + 30 }
        const tiling = tilingFor(box, { sheet: { width: 215.9, height: 279.4 }, margin: 12.7, overlap })
        const places = placesOf(tiling)
        const area = places
          .map((p) => ownOf(tiling, p))
          .reduce((sum, b) => sum + (b.maxX - b.minX) * (b.maxY - b.minY), 0)
        const [first, last] = [showsOf(tiling, places[0]!), showsOf(tiling, places.at(-1)!)]
        expect(area).toBeCloseTo((last.maxX - first.minX) * (last.maxY - first.minY), 3)
        expect(first.minX).toBeLessThanOrEqual(box.minX + 1e-6)
        expect(last.maxY).toBeGreaterThanOrEqual(box.maxY - 1e-6)
      }),
      { seed: 1, numRuns: 200 },
    )
  })

  it('moved about still covers the box, and each place lies on the own part of its sheet', () => {
    fc.assert(
      fc.property(size, size, fc.double({ min: 0, max: 1 }), (width, height, share) => {
        const box = { minX: -70, minY: 30, maxX: width - 70, maxY: height + 30 }
        const layout = { sheet: { width: 215.9, height: 279.4 }, margin: 12.7, overlap: 12.7 }
        for (const tiling of movedTilings(tilingFor(box, layout), box)) {
          const places = placesOf(tiling)
          const [first, last] = [showsOf(tiling, places[0]!), showsOf(tiling, places.at(-1)!)]
          expect(first.minX).toBeLessThanOrEqual(box.minX + 1e-6)
          expect(first.minY).toBeLessThanOrEqual(box.minY + 1e-6)
          expect(last.maxX).toBeGreaterThanOrEqual(box.maxX - 1e-6)
          expect(last.maxY).toBeGreaterThanOrEqual(box.maxY - 1e-6)
          const p = [box.minX + share * width, box.minY + (1 - share) * height] as const
          const window = windowOf(tiling)
          const own = ownOf(tiling, {
            column: indexAlong(p[0] - tiling.start[0], {
              window: window.width,
              overlap: 12.7,
              count: tiling.columns,
            }),
            row: indexAlong(p[1] - tiling.start[1], {
              window: window.height,
              overlap: 12.7,
              count: tiling.rows,
            }),
          })
          expect(p[0] >= own.minX - 1e-6 && p[0] <= own.maxX + 1e-6).toBe(true)
          expect(p[1] >= own.minY - 1e-6 && p[1] <= own.maxY + 1e-6).toBe(true)
        }
      }),
      { seed: 1, numRuns: 20 },
    )
  })

  it('is moved off the middle where that needs fewer sheets', () => {
    // A line along the left edge only, in a box that leaves a sheet's width of slack between two columns
    const points: Point[] = [
      [0, 0],
      [150, 0],
      [150, 200],
      [0, 200],
    ]
    const tracing = {
      box: { minX: 0, minY: 0, maxX: 220, maxY: 200 },
      lines: [boxedLine(points)],
      seams: [],
      arrows: [],
      tags: [],
      names: [],
    }
    const wishes = { orientation: 'portrait', margin: 12.7, overlap: 12.7 } as const
    const plan = planSheets(tracing, { ...wishes, paper: { width: 215.9, height: 279.4 } })
    expect(plan.tiling.columns).toBe(2)
    expect(plan.places).toHaveLength(1)
  })

  it('names rows by letters past Z and columns by numbers', () => {
    expect(sheetName({ row: 0, column: 0 })).toBe('A1')
    expect(sheetName({ row: 25, column: 2 })).toBe('Z3')
    expect(sheetName({ row: 26, column: 0 })).toBe('AA1')
    expect(sheetName({ row: 52, column: 9 })).toBe('BA10')
  })

  it('cuts a line into pieces whose lengths add up over all own parts', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 0, max: 900 })), {
          minLength: 2,
          maxLength: 300,
        }),
        (points) => {
          const box = { minX: 0, minY: 0, maxX: 900, maxY: 900 }
          const tiling = tilingFor(box, {
            sheet: { width: 215.9, height: 279.4 },
            margin: 12.7,
            overlap: 12.7,
          })
          const line = boxedLine(points)
          const cut = placesOf(tiling).flatMap((p) => cutLine(line, ownOf(tiling, p)))
          expect(cut.reduce((sum, l) => sum + polylineLength(l), 0)).toBeCloseTo(polylineLength(points), 4)
        },
      ),
      { seed: 1, numRuns: 50 },
    )
  })
})

describe('the widths of letters', () => {
  it.each([
    ['regular', StandardFonts.Helvetica],
    ['bold', StandardFonts.HelveticaBold],
  ] as const)('agree with the metrics of %s Helvetica', async (weight, name) => {
    const font = await (await PDFDocument.create()).embedFont(name)
    for (let code = 32; code < 127; code++) {
      const letter = String.fromCharCode(code)
      expect(textWidth(letter, { size: 1000, weight })).toBeCloseTo(font.widthOfTextAtSize(letter, 1000), 6)
    }
  })
})
