import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import type { Point } from '../../src/geometry/point.ts'
import { flattenSegment } from '../../src/geometry/segment.ts'
import { eachSegment, joinStrokes, type Stroke, strokeLength } from '../../src/geometry/stroke.ts'
import { type FilledQuilt, fillQuilt, planQuilt } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { bandArea } from '../../src/report/band-area.ts'

const CATALOG = catalogOf(LIBRARY)
const { motifs } = LIBRARY
const fill = (file: object): FilledQuilt => fillQuilt(readPlan(JSON.stringify(file), CATALOG).plan, CATALOG)

const widths = fc.integer({ min: 4, max: 40 }).map((eighths) => eighths / 8)
const densities = fc.constantFrom('light', 'medium', 'dense')
const given = fc.constantFrom('auto', 'auto', 'auto', 'wave', 'scallop')

/** Plans of several bands, most with open fillers; a few are given ones. */
const openFillers = fc.record({
  centre: fc.record({
    width: fc.integer({ min: 6, max: 14 }),
    height: fc.integer({ min: 6, max: 14 }),
    filler: fc.constantFrom('none', 'auto', 'meander'),
  }),
  bands: fc.array(fc.record({ width: widths, filler: given }), { minLength: 1, maxLength: 6 }),
  spacing: fc.constantFrom('own', 'auto'),
  density: densities,
  seed: fc.nat(99),
})

/** Length of all fill in a band, over its area, mm to the cm². */
function densityOf({ quilt, pieces }: FilledQuilt, band: number): number {
  const length = pieces.pieces.reduce((sum, p) => sum + (p.band === band ? strokeLength(p.stroke) : 0), 0)
  return (100 * length) / bandArea(quilt, band)
}

describe('with filler: auto', () => {
  it('every band that a filler suits gets one, of a width that it suits', () => {
    fc.assert(
      fc.property(openFillers, (file) => {
        const { plan, choices } = fill(file)
        plan.bands.forEach(({ filler, width, name }, i) => {
          if (file.bands[i]!.filler !== 'auto') return
          const { min, max } = motifs[filler!.name]!.suits
          expect(width.top).toBeGreaterThanOrEqual(min - 1e-6)
          expect(width.top).toBeLessThanOrEqual(max + 1e-6)
          const made = choices!.made.find(({ at }) => at === name)!
          expect(made.filler).toBe(filler!.name)
          expect(made.reason).toMatch(/^suits a width of/)
        })
      }),
      { seed: 11, numRuns: 12 },
    )
  }, 60_000)

  it('no band has the filler of its neighbour, given or chosen, nor that of the centre beside it', () => {
    fc.assert(
      fc.property(openFillers, (file) => {
        const { plan } = fill(file)
        const names = [plan.centre.filler?.name, ...plan.bands.map(({ filler }) => filler?.name)]
        const isOpen = [file.centre.filler === 'auto', ...file.bands.map(({ filler }) => filler === 'auto')]
        names.slice(1).forEach((name, i) => {
          if (isOpen[i] || isOpen[i + 1]) expect(name).not.toBe(names[i])
        })
      }),
      { seed: 12, numRuns: 12 },
    )
  }, 60_000)

  it('denser quilting is denser in every band', () => {
    const file = { centre: { width: 10, height: 12 }, spacing: 'auto', batting: { limit: 8 } }
    const bands = [1, 2.5, 1.5, 3].map((width) => ({ width, filler: 'auto' }))
    const [light, medium, dense] = ['light', 'medium', 'dense'].map((density) => {
      const filled = fill({ ...file, bands, density })
      return bands.map((_, band) => densityOf(filled, band))
    })
    light!.forEach((amount, band) => {
      expect(amount).toBeLessThan(medium![band]!)
      expect(medium![band]!).toBeLessThan(dense![band]!)
    })
  }, 60_000)

  it('the same plan gets the same fillers, another seed may get others', () => {
    const file = {
      centre: { width: 10, height: 12, filler: 'auto' },
      bands: [1, 2, 1, 3, 1.5, 2].map((width) => ({ width, filler: 'auto' })),
    }
    const namesFor = (seed: number) => fill({ ...file, seed }).plan.bands.map(({ filler }) => filler!.name)
    expect(namesFor(1)).toEqual(namesFor(1))
    const rows = new Set([1, 2, 3, 4, 5, 6].map((seed) => namesFor(seed).join()))
    expect(rows.size).toBeGreaterThan(2)
  }, 60_000)

  it('many bands of one width do not just take turns between two fillers', () => {
    const bands = Array.from({ length: 8 }, () => ({ width: 1.5, filler: 'auto' }))
    const { plan } = fill({ centre: { width: 8, height: 8 }, bands })
    expect(new Set(plan.bands.map(({ filler }) => filler!.name)).size).toBeGreaterThanOrEqual(5)
  }, 60_000)

  it('patches of a pieced band are filled, and a band too narrow for any filler is left and told', () => {
    const { plan, choices } = fill({
      centre: { width: 8, height: 8 },
      bands: [
        { name: 'stars', width: 3, pieced: { unit: 'square-on-point' }, filler: 'auto' },
        { name: 'hair', width: 0.25, filler: 'auto' },
        { name: 'sand', width: 1, filler: 'auto' },
      ],
    })
    expect(Object.keys(plan.bands[0]!.pieced!.fillers).sort()).toEqual(['diamond', 'triangle'])
    expect(plan.bands[1]!.filler).toBeUndefined()
    expect(choices!.made.find(({ at }) => at === 'hair')).toMatchObject({
      filler: undefined,
      reason: 'no filler suits a width of 1/4 in: it is left unquilted',
    })
  })

  it('is planned to the end, and its reasons stand in the report', () => {
    const file = {
      centre: { width: 8, height: 10, filler: 'auto' },
      bands: [
        { name: 'sand', width: 1, filler: 'auto' },
        { name: 'swell', width: 2.5, filler: 'auto' },
      ],
      spacing: 'auto',
    }
    const { plan } = readPlan(JSON.stringify(file), CATALOG)
    const { report } = planQuilt(plan, { catalog: CATALOG })
    expect(report.line.threadStarts).toBe(1)
    expect(report.choices!.made.map(({ at }) => at)).toEqual(['centre', 'sand', 'swell'])
    for (const { filler, reason } of report.choices!.made) {
      expect(filler).not.toBeNull()
      expect(reason).toMatch(/mm of line to the cm²/)
    }
    expect(report.bands.map(({ filler }) => filler)).toEqual(
      report.choices!.made.slice(1).map(({ filler }) => filler),
    )
  }, 60_000)
})

/** The smallest radius along a stroke, mm: of circles through neighbouring points of each segment, corners left out. */
function smallestRadius(stroke: Stroke): number {
  let least = Number.POSITIVE_INFINITY
  eachSegment(stroke, (from, segment) => {
    if (segment.kind === 'line') return
    const points: Point[] = [from]
    flattenSegment(from, segment, 0.002, points)
    const step = Math.max(1, Math.floor(points.length / 40))
    for (let i = step; i + step < points.length; i += step)
      least = Math.min(least, radiusThrough(points[i - step]!, points[i]!, points[i + step]!))
  })
  return least
}

/** @source circumradius = abc / (4 area) */
function radiusThrough(a: Point, b: Point, c: Point): number {
  const side = (p: Point, q: Point) => Math.hypot(p[0] - q[0], p[1] - q[1])
  const twice = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
  return twice < 1e-9 ? Number.POSITIVE_INFINITY : (side(a, b) * side(b, c) * side(a, c)) / (2 * twice)
}

describe('for a walking foot', () => {
  const walking = fc.record({
    centre: fc.constant({ width: 10, height: 12 }),
    bands: fc.array(fc.record({ width: fc.integer({ min: 6, max: 32 }).map((e) => e / 8) }), {
      minLength: 1,
      maxLength: 3,
    }),
    spacing: fc.constant('auto'),
    density: densities,
  })

  it('only fillers are chosen that are straight or gently curved all along, or it is told that none is', () => {
    let [suited, count] = [0, 0]
    fc.assert(
      fc.property(walking, (file) => {
        const bands = file.bands.map((band) => ({ ...band, filler: 'auto' }))
        const { pieces, choices, plan } = fill({ ...file, bands, machine: { foot: 'walking' } })
        plan.bands.forEach(({ name }, band) => {
          count++
          const { reason } = choices!.made.find(({ at }) => at === name)!
          if (reason.includes('no filler of that width suits a walking foot')) return
          suited++
          expect(reason).toContain('its curves and corners suit a walking foot')
          for (const run of pieces.stretches) {
            if (run.band !== band) continue
            const strokes = pieces.pieces.slice(...run.pieces).map(({ stroke }) => stroke)
            // The least radius that a walking foot can follow is common practice, no source: 1 in, about.
            if (strokes.length > 0) expect(smallestRadius(joinStrokes(strokes))).toBeGreaterThan(24.5)
          }
        })
      }),
      { seed: 13, numRuns: 10 },
    )
    expect(suited).toBeGreaterThan(0.8 * count)
  }, 60_000)

  it('without one, tighter fillers are chosen: the wish makes the difference', () => {
    const file = {
      centre: { width: 10, height: 12 },
      bands: [
        { width: 2, filler: 'auto' },
        { width: 3, filler: 'auto' },
      ],
    }
    const { pieces } = fill(file)
    expect(Math.min(...pieces.pieces.map(({ stroke }) => smallestRadius(stroke)))).toBeLessThan(20)
  })
})

describe('round a centre of any shape', () => {
  it.each([
    ['hexagon', 5],
    ['on-point', 5],
  ])('a %s gets fillers for itself and its bands that keep to the limit or are told', (shape, across) => {
    const { report, plan } = planQuilt(
      readPlan(
        JSON.stringify({
          centre: { shape, across, filler: 'auto' },
          bands: [{ name: 'pier', width: 1.5, filler: 'auto' }],
          batting: { limit: 2 },
          spacing: 'auto',
        }),
        CATALOG,
      ).plan,
      { catalog: CATALOG },
    )
    expect(report.choices!.made.map(({ at }) => at)).toEqual(['centre', 'pier'])
    for (const { filler, value } of report.choices!.made) {
      expect(filler).toMatch(/\w/)
      expect(value === null || value.mm > 0).toBe(true)
    }
    expect(plan.centre.filler?.name).toBe(report.choices!.made[0]!.filler)
    expect(report.choices!.overLimit.length > 0).toBe(!report.gap.withinLimit)
  })
})
