import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Drawing } from '../../src/export/drawing.ts'
import { exportDrawing } from '../../src/export/index.ts'
import type { Point } from '../../src/geometry/point.ts'
import { flattenStroke, polylineLength, strokeLength } from '../../src/geometry/stroke.ts'
import { dxfFaults } from '../support/check-dxf.ts'
import { gcodeFaults } from '../support/check-gcode.ts'
import { furthestFrom } from '../support/nearest-line.ts'
import { readDxf } from '../support/read-dxf.ts'
import { type GcodeMove, readGcode } from '../support/read-gcode.ts'
import { readSvg } from '../support/read-svg.ts'
import { harbourDrawing, lopsidedDrawing, randomDrawing, zigzagDrawing } from '../support/sample-drawings.ts'

const text = async (id: string, drawing: Drawing, options: Record<string, unknown> = {}): Promise<string> =>
  (await exportDrawing(id, drawing, options)) as string

/** A figure is read back in mm from the quilt's bottom left corner, y up, by a reader that is not ours. */
type Reader = (drawing: Drawing, options?: Record<string, unknown>) => Promise<Point[]>
const inMm = (points: readonly Point[], units: string): Point[] =>
  points.map(([x, y]) => (units === 'in' ? [x * 25.4, y * 25.4] : [x, y]))
const unitsOf = (drawing: Drawing, options: Record<string, unknown> = {}): string =>
  (options.units as string | undefined) ?? (drawing.units === 'in' ? 'in' : 'mm')

const READERS: Record<string, Reader> = {
  dxf: async (drawing, options = {}) =>
    inMm(readDxf(await text('dxf', drawing, options))[0]!.points, unitsOf(drawing, options)),
  gcode: async (drawing, options = {}) => {
    const moves = readGcode(await text('gcode', drawing, options))
    return [moves[0]!.to, ...moves.slice(1).map((m) => m.to)]
  },
  csv: async (drawing, options = {}) => {
    const rows = (await text('csv', drawing, options)).split('\r\n').filter((r) => /^\d/.test(r))
    return inMm(
      rows.map((row) => row.split(',').slice(2, 4).map(Number) as unknown as Point),
      unitsOf(drawing, options),
    )
  },
}

const lineOf = (drawing: Drawing, tolerance = 0.0005): Point[] =>
  drawing.lines[0]!.parts.flatMap((p) => flattenStroke(p.stroke, tolerance))
const yUp = (drawing: Drawing, [x, y]: Point): Point => [x, drawing.quilt.heightMm - y]
const exactLength = (drawing: Drawing): number =>
  drawing.lines[0]!.parts.reduce((sum, p) => sum + strokeLength(p.stroke), 0)

describe.each(Object.keys(READERS))('the machine path as %s', (id) => {
  const read = READERS[id]!

  it.each(['mm', 'in'])('has length and ends within 0.01 mm when written in %s', async (units) => {
    const drawing = lopsidedDrawing()
    const points = await read(drawing, { units, deviation: 0.005, decimals: 6 })
    expect(Math.abs(polylineLength(points) - exactLength(drawing))).toBeLessThan(0.01)
    const line = lineOf(drawing)
    expect(points[0]![0]).toBeCloseTo(line[0]![0], 4)
    expect(points[0]![1]).toBeCloseTo(yUp(drawing, line[0]!)[1], 4)
    expect(points.at(-1)![0]).toBeCloseTo(243, 4)
    expect(points.at(-1)![1]).toBeCloseTo(drawing.quilt.heightMm - 131, 4)
  })

  it('is not mirrored: the figure turns the same way as on the quilt', async () => {
    const drawing = lopsidedDrawing()
    const area = (points: readonly Point[]) =>
      points.reduce((sum, [x, y], i) => {
        const [nx, ny] = points[(i + 1) % points.length]!
        return sum + (x * ny - nx * y) / 2
      }, 0)
    const points = await read(drawing, { deviation: 0.005, decimals: 6 })
    expect(area(points)).toBeCloseTo(area(lineOf(drawing).map((p) => yUp(drawing, p))), 0)
    const mirrored = await read(drawing, { mirror: 'left-right', deviation: 0.005, decimals: 6 })
    expect(area(mirrored)).toBeCloseTo(-area(points), 0)
  })

  it('keeps within the deviation asked for', async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(1000), fc.constantFrom(0.02, 0.1, 0.5), async (seed, deviation) => {
        const drawing = randomDrawing(seed, 6)
        const points = await read(drawing, { deviation, units: 'mm' })
        const line = lineOf(drawing, 0.003).map((p) => yUp(drawing, p))
        expect(furthestFrom([points], line)).toBeLessThanOrEqual(deviation + 0.001)
        expect(furthestFrom([line], points)).toBeLessThanOrEqual(deviation + 0.004)
      }),
      { seed: 1, numRuns: 8 },
    )
  })

  it('keeps every tip of a zigzag', async () => {
    const drawing = zigzagDrawing()
    const points = await read(drawing, { deviation: 2 })
    expect(points).toHaveLength(97)
    for (const tip of lineOf(drawing))
      expect(points.some((p) => Math.hypot(p[0] - tip[0], p[1] - yUp(drawing, tip)[1]) < 1e-3)).toBe(true)
  })

  it('gives the same bytes for the same input', async () => {
    expect(await text(id, harbourDrawing())).toBe(await text(id, harbourDrawing()))
  })

  it('carries the cautions of a machine that moves by itself', async () => {
    const written = await text(id, lopsidedDrawing())
    for (const caution of [
      'travel limits',
      'outline with the needle up',
      'hands and hair',
      'stop switch',
      "maker's instructions",
    ])
      expect(written.replace(/\)\n\(|\n999\n|\r\n# /g, ' ')).toContain(caution)
  })

  it('runs the outline as a rectangle round the line with the needle up', async () => {
    const drawing = lopsidedDrawing()
    const points = await read(drawing, { run: 'bounds' })
    const line = lineOf(drawing).map((p) => yUp(drawing, p))
    expect(points).toHaveLength(5)
    expect(points[0]).toEqual(points[4])
    for (const axis of [0, 1] as const) {
      expect(Math.min(...points.map((p) => p[axis]))).toBeCloseTo(Math.min(...line.map((p) => p[axis])), 1)
      expect(Math.max(...points.map((p) => p[axis]))).toBeCloseTo(Math.max(...line.map((p) => p[axis])), 1)
    }
  })
})

describe('the machine path as SVG', () => {
  it.each(['mm', 'in'])('is in real units and right in length and ends when written in %s', async (units) => {
    const drawing = lopsidedDrawing()
    const svg = readSvg(await text('svg', drawing, { units, deviation: 0.005, decimals: 6 }))
    expect(svg.widthMm).toBeCloseTo(drawing.quilt.widthMm, 4)
    expect(svg.heightMm).toBeCloseTo(drawing.quilt.heightMm, 4)
    const [path] = svg.paths
    expect(Math.abs(path!.lengthMm - exactLength(drawing))).toBeLessThan(0.01)
    expect(path!.start[0]).toBeCloseTo(61, 4)
    expect(path!.start[1]).toBeCloseTo(43, 4)
    expect(path!.end[0]).toBeCloseTo(243, 4)
    expect(path!.end[1]).toBeCloseTo(131, 4)
  })
})

describe('several threads', () => {
  it('are a path each, in their colours, and one without length is left out', async () => {
    const [line] = lopsidedDrawing().lines
    const empty = { thread: '#ff0000', parts: [] }
    const lines = [empty, line!, { ...line!, thread: 'rebeccapurple"><script>' }]
    const drawing = { ...lopsidedDrawing(), lines }
    const svg = await text('svg', drawing)
    expect(readSvg(svg).paths.map((p) => p.id)).toEqual(['thread-1', 'thread-2'])
    expect(svg).toContain('stroke="#335577"')
    expect(svg).not.toContain('<script')
    expect(readDxf(await text('dxf', drawing)).map((p) => p.layer)).toEqual(['THREAD-1', 'THREAD-2'])
    const gcode = await text('gcode', drawing)
    expect(gcode.match(/^M3$/gm)).toHaveLength(2)
    expect(gcodeFaults(gcode)).toEqual([])
    // The needle is up on the way between them
    expect(gcode).toMatch(/M5\n\(Thread start 2 of 2\)\n\(Stop: put in thread .*\)\nM0\nG0 X\S+ Y\S+\nM3/)
  })

  it('without any length are refused', async () => {
    await expect(text('csv', { ...lopsidedDrawing(), lines: [] })).rejects.toThrow(/no line to export/)
  })
})

describe('rounding', () => {
  it('is not let pass for a deviation that it can\u2019t keep', async () => {
    await expect(text('csv', lopsidedDrawing(), { decimals: 2, units: 'in' })).rejects.toThrow(
      /0.1 mm can't be kept with 2 decimals in in/,
    )
  })
})

describe('the number of points', () => {
  it('is at most a third of an even flattening at 0.5 mm when 0.1 mm of deviation is allowed', async () => {
    const drawing = harbourDrawing()
    const even = drawing.lines[0]!.parts.reduce((sum, p) => sum + Math.ceil(strokeLength(p.stroke) / 0.5), 1)
    const points = await READERS.csv!(drawing, { deviation: 0.1 })
    expect(points.length).toBeLessThanOrEqual(even / 3)
  })

  it('is refused when it exceeds the most allowed, saying how many are needed', async () => {
    await expect(text('dxf', zigzagDrawing(), { maxPoints: 50 })).rejects.toThrow(/97 points.*allowed: 50/)
  })
})

/** Length of a move by the standard: a G3 turns from x towards y. */
function lengthOfMove({ motion, from, to, centre }: GcodeMove): number {
  if (!centre) return Math.hypot(to[0] - from[0], to[1] - from[1])
  const angle = (p: readonly [number, number]) => Math.atan2(p[1] - centre[1], p[0] - centre[0])
  const turn = (angle(to) - angle(from)) * (motion === 'G3' ? 1 : -1)
  const radius = Math.hypot(from[0] - centre[0], from[1] - centre[1])
  return radius * (turn > 0 ? turn : turn + 2 * Math.PI)
}

describe('the rules of RS-274/NGC', () => {
  const samples = [lopsidedDrawing(), zigzagDrawing(), harbourDrawing(), randomDrawing(5)]
  it.each(samples.flatMap((d) => [false, true].map((arcs) => [d.title, arcs, d] as const)))(
    'are kept by %s with arcs: %s',
    async (_, arcs, drawing) => {
      for (const units of ['mm', 'in'])
        expect(gcodeFaults(await text('gcode', drawing, { arcs, units }))).toEqual([])
    },
  )

  it('are kept whatever the title says', async () => {
    const title = '(nested (title)) % ; \u2033\u2192 \u{1F9F5} MSG, )('.repeat(9)
    expect(gcodeFaults(await text('gcode', { ...lopsidedDrawing(), title }))).toEqual([])
  })

  it('are watched by a check that finds what is wrong', () => {
    const faulty: [string, RegExp][] = [
      ['G21\nG90\nG1 X1 Y1\nM2', /without a feed/],
      ['G21\nG90\nG0 X1e-7 Y1\nM2', /can't be read/],
      ['G21\nG90\n(a (b) c)\nM2', /nested/],
      ['G20 G21\nM2', /two codes/],
      ['G21\nG90\nG0 X1 Y1', /no M2/],
      ['G90\nG0 X1 Y1\nM2', /unit/],
      ['G21\nG90\nF9\nG0 X0 Y0\nG2 X2 Y0 I1.1 J0\nM2', /radii/],
      [`(${'x'.repeat(99)})\nM2`, /characters/],
      ['M2\nG0 X1 Y1', /after the end/],
      ['G21\nG90\nF10\nG1 X1 M5\nM2', /M word/],
    ]
    for (const [file, fault] of faulty) expect(gcodeFaults(file).join('; ')).toMatch(fault)
  })

  it('feeds at stitches a minute times stitch length', async () => {
    // 1500 stitches a minute at 2.4 mm: 3600 mm a minute
    expect(await text('gcode', lopsidedDrawing(), { units: 'mm' })).toMatch(/^F3600$/m)
  })

  it('writes arcs whose length is the true one', async () => {
    const drawing = lopsidedDrawing()
    const moves = readGcode(await text('gcode', drawing, { arcs: true, units: 'mm' }))
    const arcs = moves.filter((m) => m.motion === 'G2' || m.motion === 'G3')
    // chord 40, rise 12: radius (20² + 12²) / 24; over the top from left to right is clockwise with y up
    expect(arcs).toHaveLength(1)
    expect(arcs[0]!.motion).toBe('G2')
    const { from, centre } = arcs[0]!
    expect(Math.hypot(from[0] - centre![0], from[1] - centre![1])).toBeCloseTo(544 / 24, 3)
  })

  it('are kept by arcs of all sizes in both units with any decimals, and their length is the line\u2019s', async () => {
    await fc.assert(
      fc.asyncProperty(fc.nat(10_000), fc.integer({ min: 3, max: 6 }), async (seed, decimals) => {
        const drawing = randomDrawing(seed, 8)
        for (const units of ['mm', 'in']) {
          const gcode = await text('gcode', drawing, { arcs: true, units, decimals, deviation: 0.05 })
          expect(gcodeFaults(gcode)).toEqual([])
          const length = readGcode(gcode).reduce(
            (sum, m) => sum + (m.motion === 'G0' ? 0 : lengthOfMove(m)),
            0,
          )
          expect(length / exactLength(drawing)).toBeCloseTo(1, 3)
        }
      }),
      { seed: 1, numRuns: 20 },
    )
  })

  it('takes the needle words as given and refuses what is no word', async () => {
    const written = await text('gcode', lopsidedDrawing(), { needleOn: 'M64 P0', needleOff: 'M65 P0' })
    expect(written).toMatch(/^M64 P0$/m)
    expect(gcodeFaults(written)).toEqual([])
    for (const needleOn of ['M3 (x)\nM2', 'M3\nM2', 'M2', 'M030', 'G1', 'M3 X5', ''])
      await expect(text('gcode', lopsidedDrawing(), { needleOn })).rejects.toThrow(/Words that start/)
  })
})

describe('the rules of DXF R12', () => {
  const samples = [lopsidedDrawing(), zigzagDrawing(), harbourDrawing(), randomDrawing(5)]
  it.each(samples.map((d) => [d.title, d] as const))('are kept by %s', async (_, drawing) => {
    for (const options of [{}, { arcs: true }, { layers: 'band' }, { run: 'bounds' }])
      expect(dxfFaults(await text('dxf', drawing, options))).toEqual([])
  })

  it('are kept whatever title and band names say', async () => {
    const drawing = lopsidedDrawing()
    const bands = drawing.quilt.bands.map((b) => ({ ...b, name: '0\nEOF\u2603 \u00e9'.repeat(40) }))
    const hostile = { ...drawing, title: '0\nEOF\n\u2603'.repeat(90), quilt: { ...drawing.quilt, bands } }
    const written = await text('dxf', hostile, { layers: 'band' })
    expect(dxfFaults(written)).toEqual([])
    for (const { layer } of readDxf(written)) expect(layer).toMatch(/^[A-Z0-9$_-]{1,31}$/)
  })

  it('gives each band its layer when asked', async () => {
    const layers = readDxf(await text('dxf', lopsidedDrawing(), { layers: 'band' })).map((p) => p.layer)
    expect(layers).toEqual(['1-SAND', '2-ROPE'])
  })

  it('writes an arc as a bulge: sagitta over half chord, negative for clockwise', async () => {
    // ezdxf: bulge = sagitta / half chord; chord 40, rise 12, left to right over the top
    const [polyline] = readDxf(await text('dxf', lopsidedDrawing(), { arcs: true, units: 'mm' }))
    expect(polyline!.bulges.filter((b) => b !== 0)).toEqual([-0.6])
  })

  it('are watched by a check that finds what is wrong', async () => {
    const good = await text('dxf', zigzagDrawing())
    const faulty: [string, RegExp][] = [
      [good.replace('0\nEOF\n', ''), /EOF/],
      [good.replace('AC1009', 'AC1021'), /AC1009/],
      [good.replaceAll('POLYLINE', 'LWPOLYLINE'), /no entity of R12/],
      [good.replace('66\n1\n', ''), /66 = 1/],
      [good.replace('0\nSEQEND\n8\nTHREAD-1\n', ''), /no SEQEND/],
      [good.replace('30\n0\n', '30\n1e-9\n'), /no value/],
    ]
    for (const [file, fault] of faulty) expect(dxfFaults(file).join('; ')).toMatch(fault)
  })
})
