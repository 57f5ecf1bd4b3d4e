import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { exportDrawing } from '../../src/export/index.ts'
import type { LineFile } from '../../src/export/line-json.ts'
import { orderFigures } from '../../src/export/order/order-figures.ts'
import { distance, type Point } from '../../src/geometry/point.ts'
import { boundsOf, endOf, flattenStroke } from '../../src/geometry/stroke.ts'
import { mostSway, swayIn } from '../../src/pieces/sway.ts'
import { fillQuilt, type PlannedQuilt, planFromText } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { writePlan } from '../../src/plan/write-plan.ts'
import { bruteGap } from '../support/brute-gap.ts'
import { measureLine } from '../support/measure-line.ts'

const CATALOG = catalogOf(LIBRARY)
const FILLERS = ['clamshell', 'crosshatch', 'echo-rails', 'meander', 'swirl']

/** A quilt of 20 x 26 in, in inches. */
const file = (allOver: unknown, more: object = {}) =>
  JSON.stringify({
    centre: { width: 12, height: 18 },
    bands: [
      { name: 'sand', width: 1.5 },
      { name: 'swell', width: 2.5, corners: 'cornerstone' },
    ],
    allOver,
    machine: { reach: [9, 9] },
    ...more,
  })
const planned = (text: string): PlannedQuilt => planFromText(text, CATALOG)
const fill = (text: string) => fillQuilt(readPlan(text, CATALOG).plan, CATALOG)

describe.each(FILLERS)('%s over the whole quilt', (name) => {
  const { report, drawing, quilt } = planned(file(name))

  it('is one line that covers every band and the centre, without travel or overlap', async () => {
    expect(report.line).toMatchObject({ threadStarts: 1, travelMm: 0 })
    expect(report.line.overlapShare).toBeLessThan(0.005)
    const line = JSON.parse((await exportDrawing('line-json', drawing)) as string) as LineFile
    // Read back and measured by other means: unbroken, inside the binding, as long as told.
    const measured = measureLine(line, quilt)
    expect(measured.starts).toBe(1)
    expect(Math.abs(measured.lengthMm / report.line.lengthMm - 1)).toBeLessThan(0.01)
    const chains = line.lines.map(({ points }) => points)
    for (const [k, band] of report.bands.entries()) {
      const gap = bruteGap(chains, [quilt.rings[k + 1]!, quilt.rings[k]!], 3)
      expect(Math.abs(gap - band.gapMm!)).toBeLessThan(3 * Math.SQRT2 + 1)
    }
    expect(report.gap.largestMm).toBeLessThan(60)
  })

  it('is worked part by part: the quilt is moved at most once for each, hardly more often than must be', () => {
    const { areas, repositions, repositionsBound } = report.line
    expect(repositions).toBeLessThanOrEqual(areas)
    expect(repositions).toBeLessThanOrEqual(2.2 * repositionsBound + 2)
  })

  it('is told of band by band, as evenly as one filler is', () => {
    expect(report.allOver).toMatchObject({ filler: name, stitchedMm: report.line.lengthMm })
    const inBands = report.bands.reduce((sum, band) => sum + band.stitchedMm, 0)
    expect(inBands).toBeGreaterThan(0.4 * report.line.lengthMm)
    expect(inBands).toBeLessThan(report.line.lengthMm)
    for (const band of report.bands) {
      expect(band.filler).toBe(name)
      expect(band.mmPerCm2 / report.allOver!.mmPerCm2).toBeGreaterThan(0.75)
      expect(band.mmPerCm2 / report.allOver!.mmPerCm2).toBeLessThan(1.33)
    }
    expect(report.evenness.worstRatio!).toBeLessThan(1.5)
    expect(report.bands.reduce((sum, band) => sum + band.stitches, 0)).toBeLessThan(report.stitches.count)
  })

  it('can be taken away in every form', async () => {
    const [figure] = orderFigures(drawing)
    expect(figure!.now[0]!.words).toContain(`All over, ${name.replace('-', ' ')}`)
    for (const form of ['picture', 'svg', 'dxf', 'gcode', 'csv', 'line-json', 'sheets', 'order-pdf'] as const)
      expect((await exportDrawing(form, drawing)).length).toBeGreaterThan(1000)
  })

  it('on a frame goes on from strip to strip in one line', () => {
    const frame = { kind: 'frame', throat: 10, overlap: 1 }
    const { line, frame: strips } = planned(file(name, { machine: frame })).report
    expect(line.threadStarts).toBe(1)
    expect(strips!.passes).toBeGreaterThan(1)
    expect(strips!.passes).toBeLessThanOrEqual(4)
  })
})

describe('an all-over', () => {
  it('on quilts of any size is parts within reach, each of which ends where the next begins', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...FILLERS),
        fc.tuple(fc.integer({ min: 6, max: 40 }), fc.integer({ min: 6, max: 40 })),
        fc.tuple(fc.integer({ min: 7, max: 20 }), fc.integer({ min: 7, max: 20 })),
        fc.constantFrom('top-left', 'top-right', 'bottom-right', 'bottom-left'),
        (name, [width, height], reach, start) => {
          const more = { centre: { width, height }, machine: { reach }, route: { start } }
          const { pieces, quilt } = fill(file(name, more))
          const ring = quilt.rings.at(-1)!
          const corners = ['top-left', 'top-right', 'bottom-right', 'bottom-left']
          const strokes = pieces.pieces.map(({ stroke }) => stroke)
          expect(distance(strokes[0]!.start, ring[corners.indexOf(start)]!)).toBeLessThan(1e-6)
          strokes.forEach((stroke, i) => {
            if (i > 0) expect(distance(endOf(strokes[i - 1]!), stroke.start)).toBeLessThan(1e-6)
            const { minX, minY, maxX, maxY } = boundsOf(flattenStroke(stroke, 0.05))
            expect(maxX - minX).toBeLessThanOrEqual(reach[0] * 25.4 + 1e-6)
            expect(maxY - minY).toBeLessThanOrEqual(reach[1] * 25.4 + 1e-6)
            expect(Math.min(minX - ring[0]![0], minY - ring[0]![1])).toBeGreaterThan(-0.1)
            expect(Math.min(ring[2]![0] - maxX, ring[2]![1] - maxY)).toBeGreaterThan(-0.1)
          })
        },
      ),
      { seed: 21, numRuns: 25 },
    )
  })

  it('with spacing: auto keeps the batting’s limit, and keeps what the plan gives', () => {
    const open = planned(file('crosshatch', { spacing: 'auto', batting: { limit: 0.7 } })).report
    expect(open.gap.withinLimit).toBe(true)
    expect(open.choices!.made).toMatchObject([{ at: 'all over', what: 'spacing', filler: 'crosshatch' }])
    expect(open.choices!.made[0]!.reason).toContain('to keep gaps within')
    const { plan } = fill(file({ crosshatch: { spacing: 2 } }, { spacing: 'auto' }))
    expect(plan.allOver!.values.spacing).toBeCloseTo(50.8)
  })

  it('is written as it was read', () => {
    const { plan } = readPlan(file({ meander: { spacing: 0.7 } }), CATALOG)
    expect(readPlan(writePlan(plan, CATALOG), CATALOG).plan).toEqual(plan)
  })

  const problemsOf = (more: object, allOver: unknown = 'meander') => {
    try {
      planned(file(allOver, more))
    } catch (error) {
      return (error as Error).message
    }
    return ''
  }

  it.each([
    ['a filler in a band', { bands: [{ width: 2, filler: 'scallop' }] }, 'bands[0].filler: is given'],
    ['a side of its own', { bands: [{ width: 2, sides: { top: 'scallop' } }] }, 'bands[0].sides: is given'],
    [
      'a filler in the centre',
      { centre: { width: 9, height: 9, filler: 'auto' } },
      'centre.filler: is given',
    ],
    ['laps', { route: { work: 'laps' } }, 'route.work: is given'],
    ['an end', { route: { end: 'top-left' } }, 'route.end: is given'],
    ['a start in a band', { route: { start: { band: 'sand', side: 'top' } } }, 'route.start: is given'],
    ['seams to stitch', { route: { ditch: 'rings' } }, 'route.ditch: is given'],
    ['regions to stay out of', { avoid: [{ circle: { at: [5, 5], radius: 1 } }] }, 'avoid: is given'],
    [
      'a centre that is no rectangle',
      { centre: { shape: 'octagon', across: 9 } },
      'allOver: fills a rectangle',
    ],
  ])('is refused beside %s', (_, more, message) => {
    expect(problemsOf(more)).toContain(message)
  })

  it('is refused of a filler that cannot go over a quilt', () => {
    expect(problemsOf({}, 'bracket')).toContain('allOver: is "bracket"; allowed: none, clamshell')
  })
})

describe('the sway of rows', () => {
  it('keeps the edges, moves nothing further than it says, and never folds', () => {
    const [size, spacing]: [Point, number] = [[700, 500], 12]
    const warp = swayIn(size, spacing)
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (s, t) => {
          const p: Point = [s * size[0], t * size[1]]
          const { to, du, dv } = warp(p)
          expect(Math.max(Math.abs(to[0] - p[0]), Math.abs(to[1] - p[1]))).toBeLessThanOrEqual(
            mostSway(spacing),
          )
          expect(du[0] * dv[1] - du[1] * dv[0]).toBeGreaterThan(0.3)
          // The derivatives are those of the map itself, by differences.
          const [ahead, below] = [warp([p[0] + 1e-4, p[1]]).to, warp([p[0], p[1] + 1e-4]).to]
          expect((ahead[0] - to[0]) / 1e-4).toBeCloseTo(du[0], 3)
          expect((ahead[1] - to[1]) / 1e-4).toBeCloseTo(du[1], 3)
          expect((below[0] - to[0]) / 1e-4).toBeCloseTo(dv[0], 3)
          expect((below[1] - to[1]) / 1e-4).toBeCloseTo(dv[1], 3)
        },
      ),
      { seed: 22, numRuns: 200 },
    )
    for (const x of [0, 123, 700])
      for (const y of [0, 500]) {
        expect(warp([x, y]).to[1]).toBeCloseTo(y, 9)
        expect(warp([y === 0 ? 0 : 700, x / 2]).to[0]).toBeCloseTo(y === 0 ? 0 : 700, 9)
      }
  })
})
