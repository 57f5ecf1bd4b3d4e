import { describe, expect, it } from 'vitest'
import type { Drawing } from '../../src/export/drawing.ts'
import { exportDrawing } from '../../src/export/index.ts'
import { orderFigures } from '../../src/export/order/order-figures.ts'
import { orderSteps } from '../../src/export/order/order-steps.ts'
import { seamAt } from '../../src/export/order/step-words.ts'
import type { Point } from '../../src/geometry/point.ts'
import { strokeLength, strokeThrough } from '../../src/geometry/stroke.ts'
import type { LinePart } from '../../src/stitch/line.ts'
import { readPdf } from '../support/read-pdf.ts'
import { harbourDrawing, lopsidedDrawing } from '../support/sample-drawings.ts'
import { even, mitredQuilt } from '../support/sample-quilts.ts'

/** A centre of 200 x 100 with two bands of 20 and no binding: rings at 40, 20 and 0 from the edge. */
const quilt = mitredQuilt(
  [200, 100],
  [
    { name: 'sand', widths: even(20) },
    { name: 'rope', widths: even(20) },
  ],
  0,
)
const part = (kind: LinePart['kind'], points: Point[], rest: Partial<LinePart> = {}): LinePart => ({
  kind,
  area: 0,
  stroke: strokeThrough(points),
  ...rest,
})
const drawingOf = (parts: LinePart[]): Drawing => ({
  ...lopsidedDrawing(),
  units: 'cm',
  quilt,
  areaCount: Math.max(...parts.map((p) => p.area)) + 1,
  fillers: ['bracket', 'loops'],
  lines: [{ thread: '#000000', parts }],
})
const words = (parts: LinePart[]): string[] => orderSteps(drawingOf(parts)).map((s) => s.words)

describe('the order in words', () => {
  it('names band, filler, seams and way, and says when a run goes back', () => {
    expect(
      words([
        part(
          'fill',
          [
            [60, 40],
            [100, 20],
            [140, 40],
          ],
          { band: 0 },
        ),
        part(
          'fill',
          [
            [140, 20],
            [100, 0],
            [60, 20],
          ],
          { band: 1 },
        ),
      ]),
    ).toEqual([
      'Start here: tie off. Sand band, bracket: from the inner seam to the right, ending on the inner seam again.',
      'Rope band, loops: from the inner seam back to the left, ending on the inner seam again. Tie off and end the thread.',
    ])
  })

  it('names the corner that a run goes round, and the quilt\u2019s edge', () => {
    const [round] = words([
      part(
        'fill',
        [
          [100, 0],
          [279, 0],
          [280, 90],
        ],
        { band: 1 },
      ),
    ])
    expect(round).toContain(
      'from the outer edge to the right, round the top right corner and downward, ending on the outer edge again',
    )
    const [back] = words([
      part(
        'fill',
        [
          [0, 90],
          [0, 1],
          [100, 0],
        ],
        { band: 1 },
      ),
    ])
    expect(back).toContain('upward, round the top left corner and to the right')
    const [low] = words([
      part(
        'fill',
        [
          [200, 180],
          [0, 180],
          [0, 90],
        ],
        { band: 1 },
      ),
    ])
    expect(low).toContain('to the left, round the bottom left corner and upward')
  })

  it('calls a lap a lap', () => {
    const lap: Point[] = [
      [60, 10],
      [230, 10],
      [270, 10],
      [270, 170],
      [10, 170],
      [10, 10],
      [60, 10],
    ]
    expect(words([part('fill', lap, { band: 1 })])[0]).toContain('clockwise all the way round')
    expect(words([part('fill', [...lap].reverse(), { band: 1 })])[0]).toContain(
      'anticlockwise all the way round',
    )
  })

  it('gives travel its length and reason, and passes over a trifle', () => {
    const steps = words([
      part(
        'fill',
        [
          [60, 40],
          [100, 20],
        ],
        { band: 0 },
      ),
      part(
        'travel',
        [
          [100, 20],
          [150, 20],
        ],
        { reason: 'to the next area' },
      ),
      part('ditch', [
        [150, 20],
        [150, 40],
      ]),
      part('travel', [
        [150, 40],
        [152, 40],
      ]),
      part(
        'fill',
        [
          [152, 40],
          [160, 20],
        ],
        { band: 0 },
      ),
    ])
    expect(steps).toHaveLength(4)
    expect(steps[1]).toBe('Travel in the ditch to the right, 5 cm: to the next area.')
    expect(steps[2]).toBe('Stitch in the ditch downward, 2.2 cm.')
  })

  it('takes short hops in the ditch between pieces of one band as part of its filling', () => {
    const pieces = (hop: number) =>
      words([
        part(
          'fill',
          [
            [60, 40],
            [80, 20],
          ],
          { band: 0 },
        ),
        part('travel', [
          [80, 20],
          [80 + hop, 20],
        ]),
        part(
          'fill',
          [
            [80 + hop, 20],
            [100 + hop, 40],
          ],
          { band: 0 },
        ),
      ])
    expect(pieces(20)).toEqual([
      'Start here: tie off. Sand band, bracket: from the inner seam to the right, ending on the inner seam again. Tie off and end the thread.',
    ])
    expect(pieces(60)).toHaveLength(3)
  })

  it('finds the seam that a point lies on', () => {
    expect(seamAt(quilt, 0, [100, 40])).toBe('inner')
    expect(seamAt(quilt, 0, [100, 20])).toBe('outer')
    expect(seamAt(quilt, 0, [100, 30])).toBe('inside')
    expect(seamAt(quilt, 1, [100, 0.5])).toBe('edge')
    expect(seamAt(quilt, -1, [100, 41])).toBe('outer')
  })
})

describe('the figures', () => {
  it('come one an area in the order of work, and together show the whole line once', () => {
    const drawing = harbourDrawing()
    const figures = orderFigures(drawing)
    expect(figures.map((f) => f.title)).toEqual(Array.from({ length: 8 }, (_, i) => `Area ${i + 1} of 8`))
    const total = figures
      .flatMap((f) => f.now)
      .reduce((sum, s) => sum + strokeLength(strokeThrough(s.points)), 0)
    const line = drawing.lines[0]!.parts.reduce((sum, p) => sum + strokeLength(p.stroke), 0)
    expect(total / line).toBeCloseTo(1, 2)
    figures.forEach((f, i) => {
      expect(f.done).toEqual(figures.slice(0, i).flatMap((earlier) => earlier.now))
    })
  })

  it('share out an area of many steps', () => {
    const parts = Array.from({ length: 30 }, (_, i) =>
      part(
        'fill',
        [
          [60 + i, 40 - (i % 2) * 20],
          [61 + i, 20 + (i % 2) * 20],
        ],
        { band: i % 2 },
      ),
    )
    const figures = orderFigures(drawingOf(parts))
    expect(figures).toHaveLength(3)
    expect(figures.map((f) => f.now.length)).toEqual([10, 10, 10])
    expect(figures[1]!.title).toBe('Area 1 of 1, part 2 of 3')
  })
})

describe('the order diagram', () => {
  it('has every sentence and number as text in the PDF, inside the page', async () => {
    const drawing = harbourDrawing()
    const { pages } = await readPdf((await exportDrawing('order-pdf', drawing)) as Uint8Array)
    const said = pages
      .flatMap((p) => p.texts.map((t) => t.text))
      .join(' ')
      .replace(/\s+/g, ' ')
    for (const step of orderSteps(drawing))
      expect(said).toContain(step.words.split(' ').slice(0, 6).join(' '))
    for (const page of pages) {
      expect(Math.min(...page.texts.map((t) => t.at[0]))).toBeGreaterThan(5)
      expect(Math.max(...page.texts.map((t) => t.at[1]))).toBeLessThan((page.heightPt * 25.4) / 72 - 5)
    }
    expect(pages.length).toBeLessThanOrEqual(2)
  })

  it('escapes hostile names in the SVG', async () => {
    const drawing = harbourDrawing({ names: ['</text><script>alert(1)</script>', '&"\'', 'a', 'b', 'c'] })
    const svg = (await exportDrawing('order-svg', { ...drawing, title: '<b>&' })) as string
    expect(svg).not.toContain('<script')
    expect(svg).toContain('&lt;b&gt;&amp;')
  })

  it('is the same for the same input', async () => {
    expect(await exportDrawing('order-svg', harbourDrawing())).toBe(
      await exportDrawing('order-svg', harbourDrawing()),
    )
  })

  it('is an empty sheet with a heading for a drawing without a line', async () => {
    const svg = (await exportDrawing('order-svg', { ...lopsidedDrawing(), lines: [] })) as string
    expect(svg).toContain('In what order to stitch')
  })
})
