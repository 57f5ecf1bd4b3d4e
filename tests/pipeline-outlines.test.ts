import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../motifs/index.ts'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { exportDrawing } from '../src/export/index.ts'
import { lineFormat } from '../src/export/line-json.ts'
import { endOf, flattenStroke } from '../src/geometry/stroke.ts'
import { tieNet } from '../src/pieces/net.ts'
import { PATCH_FILLERS } from '../src/pieces/patch-fillers/index.ts'
import { type FilledQuilt, fillQuilt, type PlannedQuilt, threadQuilt } from '../src/pipeline.ts'
import { readPlan } from '../src/plan/read-plan.ts'
import { outlineArea, outlineLength } from '../src/quilt/outline.ts'
import { bandArea } from '../src/report/band-area.ts'
import { reportFormat } from '../src/report/report.ts'
import { assertPiecesFit, assertTouchesMeet, depthInside } from './pieces/piece-laws.ts'
import { finishQuilt } from './support/finish-quilt.ts'
import { measureLine } from './support/measure-line.ts'
import { SAMPLES } from './support/samples.ts'

const CATALOG = catalogOf(LIBRARY)
const read = (text: string) => readPlan(text, CATALOG).plan
const fill = (text: string): FilledQuilt => fillQuilt(read(text), CATALOG)

/** What is filled, planned to the end. */
const finish = (filled: FilledQuilt): PlannedQuilt => finishQuilt(threadQuilt(filled, CATALOG))

const SETTING = 'setting-triangles'
const width = fc.integer({ min: 8, max: 28 }).map((eighths) => eighths / 8)
const suiting = (inches: number) =>
  Object.keys(MOTIFS).filter((name) => MOTIFS[name]!.suits.min <= inches * 25.4 + 1e-6)

const plain = fc
  .record({
    width,
    choice: fc.nat(),
    corners: fc.constantFrom('mitred', 'mitred', 'cornerstone', { butted: 'rows-first' }),
    bare: fc.nat(5),
  })
  .map(({ width, choice, corners, bare }) => {
    const names = suiting(width)
    return { width, corners, filler: bare === 0 ? 'none' : names[choice % names.length]! }
  })
const patchFiller = fc.constantFrom(...Object.keys(PATCH_FILLERS))
const pieced = fc
  .record({ width, dark: patchFiller, light: patchFiller, stone: patchFiller })
  .map(({ width, dark, light, stone }) => ({
    width,
    corners: 'cornerstone',
    pieced: { unit: 'squares' },
    filler: { dark, light, cornerstone: stone },
  }))
const stones = fc
  .record({ width, motif: fc.constantFrom(...Object.keys(LIBRARY.corners)) })
  .map(({ width, motif }) => ({ width, cornerstone: motif, filler: 'piano-keys' }))
const bands = fc.array(
  fc.oneof(
    { arbitrary: plain, weight: 5 },
    { arbitrary: pieced, weight: 1 },
    { arbitrary: stones, weight: 1 },
  ),
  { minLength: 1, maxLength: 4 },
)
const across = fc.integer({ min: 10, max: 22 })

/** Plans round a hexagon or an octagon, and round a square on point, with setting triangles somewhere or nowhere. */
const shaped = fc
  .record({
    shape: fc.constantFrom('hexagon', 'octagon', 'on-point'),
    across,
    filler: fc.constantFrom('none', 'crosshatch', 'echo-rails', 'meander'),
    bands,
    triangle: patchFiller,
    setting: fc.nat(5),
    reach: fc.constantFrom(12, 16, 30),
  })
  .map(({ bands, setting, triangle, reach, ...centre }) => {
    const list: object[] = bands
    const triangles = { pieced: { unit: SETTING }, filler: { triangle } }
    if (centre.shape === 'on-point' && setting <= list.length) list.splice(setting, 0, triangles)
    return { centre, bands: list, machine: { reach: [reach, reach] } }
  })
  .filter((file) => file.bands.some((band) => (band as { filler: unknown }).filler !== 'none'))

const files = fc.sample(shaped, { seed: 71, numRuns: 8 })

describe.each(files.map((file, i) => [i, file] as const))('plan %i round another outline', (_, file) => {
  const text = JSON.stringify(file)
  const filled = fill(text)
  const planned = finish(filled)
  const { line } = planned.report

  it('is one line, or as few as the pieces can be joined to', () => {
    expect(line.threadStarts).toBe(line.threadStartsBound)
    expect(line.lengthMm).toBeGreaterThanOrEqual(line.lowerBoundMm - 0.01)
    expect(line.overlapShare).toBeLessThan(0.05)
  })

  it('has pieces that lie in their bands and touch their neighbours', () => {
    const { quilt, pieces } = filled
    const inBands = pieces.pieces.filter((piece) => piece.band >= 0)
    assertPiecesFit(quilt, { ...pieces, pieces: inBands })
    for (const { stroke } of pieces.pieces.filter((piece) => piece.band < 0))
      for (const p of flattenStroke(stroke, 0.05))
        expect(depthInside(p, quilt.rings[0]!)).toBeGreaterThan(-0.1)
    assertTouchesMeet(pieces, tieNet(quilt, pieces))
  })

  it('is what the report says, measured by other means', async () => {
    expect(() => reportFormat.parse(planned.report)).not.toThrow()
    const written = (await exportDrawing('line-json', planned.drawing)) as string
    const measured = measureLine(lineFormat.parse(JSON.parse(written)), planned.quilt)
    expect(Math.abs(measured.lengthMm - line.lengthMm)).toBeLessThan(0.003 * line.lengthMm + 1)
    expect(Math.abs(measured.overlapMm - line.overlapMm)).toBeLessThan(0.02 * line.lengthMm + 25)
  })

  it('is drawn, ordered, traced and exported', async () => {
    for (const name of ['picture', 'order-svg', 'sheets', 'gcode'] as const)
      expect((await exportDrawing(name, planned.drawing)).length).toBeGreaterThan(1000)
  })
})

describe('the samples of other outlines', () => {
  it.each([
    ['beacon-hexagon', 6],
    ['compass-octagon', 8],
  ])('%s has the areas and perimeters of the closed forms, and repeats alike on all sides', (name, sides) => {
    const { quilt, plan, report } = planSample(name)
    // Area m a² tan(pi/m), perimeter 2 m a tan(pi/m) of a regular m-gon of apothem a: school formulas.
    const t = Math.tan(Math.PI / sides)
    const apothems = [plan.centre.across! / 2]
    for (const { width } of plan.bands) apothems.push(apothems.at(-1)! + width.top)
    quilt.rings.forEach((ring, k) => {
      expect(outlineLength(ring)).toBeCloseTo(2 * sides * apothems[k]! * t, 6)
    })
    quilt.bands.forEach((_, k) => {
      const closed = sides * t * (apothems[k + 1]! ** 2 - apothems[k]! ** 2)
      expect(bandArea(quilt, k) / closed).toBeCloseTo(1, 9)
    })
    for (const { repeats } of report.bands) {
      if (!repeats) continue
      expect(repeats).toHaveLength(sides)
      expect(new Set(repeats as number[]).size).toBe(1)
    }
  })

  it('light-on-point has setting triangles of half its centre and its first band, and is named by how its sides face', () => {
    const { quilt, plan, report } = planSample('light-on-point')
    // Four triangles that make a square upright are together as large as it is (school geometry).
    expect(bandArea(quilt, 1)).toBeCloseTo(Math.abs(outlineArea(quilt.rings[1]!)), 6)
    expect(plan.bands[1]!.width.top).toBeCloseTo((plan.centre.across! + 2 * plan.bands[0]!.width.top) / 2, 6)
    expect(report.bands[0]!.repeats).toHaveLength(4)
    expect(report.bands[2]!.repeats).toHaveProperty('top')
    const places = [...report.line.extras, ...report.thread.bobbinChanges].map(({ where }) => where)
    for (const where of places.filter((text) => text.includes('halo')))
      expect(where).toMatch(/(upper|lower) (left|right)/)
  })
})

const planSample = (name: string): PlannedQuilt => finish(fill(SAMPLES[name]!))

describe('the sample of strips with fillers of their own', () => {
  const { quilt, pieces, plan: settled } = fill(SAMPLES['ferry-strips']!)

  it('keeps every strip in its own seams, cornerstones apart', () => {
    for (const band of [1, 2]) {
      const seams = quilt.seams.filter(({ kind, index }) => kind === 'corner' && index === band)
      const stones = (quilt.patches ?? []).filter((patch) => patch.band === band)
      for (const {
        side,
        pieces: [first, end],
      } of pieces.stretches.filter((s) => s.band === band)) {
        const { innerA, innerB, outerA, outerB } = quilt.bands[band]!.sides[side]!
        for (const { stroke } of pieces.pieces.slice(first, end))
          for (const p of flattenStroke(stroke, 0.05)) {
            for (const { outline } of stones) expect(depthInside(p, outline)).toBeLessThan(0.1)
            // Columns first: the rows lie over their ends, from outer corner to outer corner.
            const isRow = side % 2 === 0
            const [low, high] = isRow && band === 1 ? [outerA, outerB] : [innerA, innerB]
            const axis = isRow ? 0 : 1
            expect(p[axis]).toBeGreaterThan(Math.min(low[axis], high[axis]) - 0.1)
            expect(p[axis]).toBeLessThan(Math.max(low[axis], high[axis]) + 0.1)
          }
      }
      expect(seams.length > 0 || stones.length === 4).toBe(true)
    }
  })

  it('gives every side the filler that it asks for', () => {
    const on = (band: number, side: number) =>
      pieces.stretches.filter((s) => s.band === band && s.side === side)
    const { sides } = settled.bands[1]!
    expect([sides.top, sides.bottom]).toMatchObject([{ name: 'piano-keys' }, { name: 'swirl' }])
    const isStraight = (band: number, side: number) =>
      on(band, side).every(({ pieces: [first, end] }) =>
        pieces.pieces
          .slice(first, end)
          .every(({ stroke }) => stroke.segments.some(({ kind }) => kind === 'line')),
      )
    expect([0, 1, 2, 3].map((side) => on(1, side).length > 0)).toEqual([true, true, true, true])
    expect([isStraight(1, 0), isStraight(1, 2)]).toEqual([true, false])
  })

  it('fills each cornerstone with its motif, which comes back to the corner where it began', () => {
    const stones = quilt.patches!.filter((patch) => patch.name === 'cornerstone')
    const inStones = pieces.pieces.filter((piece) => piece.band === 2 && piece.startRing === undefined)
    expect(stones).toHaveLength(4)
    expect(inStones).toHaveLength(4)
    for (const { stroke } of inStones) {
      const [x, y] = endOf(stroke)
      expect(Math.hypot(x - stroke.start[0], y - stroke.start[1])).toBeLessThan(1e-6)
      const home = stones.find(({ outline }) =>
        flattenStroke(stroke, 0.05).every((p) => depthInside(p, outline) > -0.1),
      )
      expect(home).toBeDefined()
    }
  })
})
