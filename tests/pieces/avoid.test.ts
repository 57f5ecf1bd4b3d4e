import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError } from '../../src/error.ts'
import { orderSteps } from '../../src/export/order/order-steps.ts'
import type { Point } from '../../src/geometry/point.ts'
import { flattenStroke } from '../../src/geometry/stroke.ts'
import { type PlannedLine, planLine } from '../../src/pieces/plan-line.ts'
import { type FilledQuilt, fillQuilt, lineTaskOf, planFromText } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { outlineOf } from '../../src/quilt/avoided-region.ts'
import { anyRegion, depthIn, regionOn } from '../support/any-region.ts'
import { furthestFrom } from '../support/nearest-line.ts'
import { anyPlan } from '../support/random-plans.ts'
import { assertNoGap } from './piece-laws.ts'

const CATALOG = catalogOf(LIBRARY)

interface Planned {
  readonly filled: FilledQuilt
  readonly line: PlannedLine
  /** The line as chords, within 0.01 mm. */
  readonly chords: readonly (readonly Point[])[]
}

function threaded(filled: FilledQuilt): Planned {
  const line = planLine(lineTaskOf(filled))
  const chords = line.lines.map(({ parts }) => parts.flatMap(({ stroke }) => flattenStroke(stroke, 0.01)))
  return { filled, line, chords }
}

const planned = (text: string): Planned => threaded(fillQuilt(readPlan(text, CATALOG).plan, CATALOG))

/** Places along chords, at most 2 mm apart. */
function placesOn(points: readonly Point[]): Point[] {
  return points.flatMap((p, i) => {
    const next = points[i + 1] ?? p
    const count = Math.max(1, Math.ceil(Math.hypot(next[0] - p[0], next[1] - p[1]) / 2))
    return Array.from({ length: count }, (_, k): Point => {
      const t = k / count
      return [p[0] + (next[0] - p[0]) * t, p[1] + (next[1] - p[1]) * t]
    })
  })
}

const deepest = ({ filled, chords }: Planned): number =>
  Math.max(
    0,
    ...chords.flatMap((points) =>
      placesOn(points).map((p) => Math.max(0, ...filled.quilt.regions!.map((region) => depthIn(region, p)))),
    ),
  )

/** How far from a region's edge a place lies at least, outside of all of them: by moving it and looking. */
const isClearOf = (regions: FilledQuilt['quilt']['regions'], p: Point, by: number): boolean =>
  regions!.every(
    (region) =>
      depthIn(region, p) === 0 &&
      Array.from({ length: 24 }, (_, i) => (2 * Math.PI * i) / 24).every(
        (turn) => depthIn(region, [p[0] + by * Math.cos(turn), p[1] + by * Math.sin(turn)]) === 0,
      ),
  )

/** How many parts of the net hold stitching: what no line can join. */
function partsOf({ net }: PlannedLine): number {
  const leader = net.positions.map((_, i) => i)
  const find = (i: number): number => (leader[i] === i ? i : find(leader[i]!))
  for (const { u, v } of [...net.fills, ...net.seams]) leader[find(u)] = find(v)
  const required = [...net.fills, ...net.seams.filter(({ ditch }) => ditch !== undefined)]
  return new Set(required.map(({ u }) => find(u))).size
}

const cases = fc.sample(
  fc.record({ plan: anyPlan(4), regions: fc.array(anyRegion, { minLength: 1, maxLength: 3 }) }),
  {
    seed: 9,
    numRuns: 12,
  },
)

describe.each(cases.map((one, i) => [i, one] as const))(
  'quilt %i with regions to stay out of',
  (_, { plan, regions }) => {
    const read = readPlan(JSON.stringify(plan), CATALOG).plan
    const plain = fillQuilt(read, CATALOG)
    const avoid = regions.map((region, i) => regionOn(plain.quilt, region, i))
    const result = threaded(fillQuilt({ ...read, avoid }, CATALOG))

    it('has no stitching in them', () => {
      expect(deepest(result)).toBeLessThan(0.1)
    })

    it('is stitched in one line, or in as few as the regions leave parts', () => {
      expect(result.line.lines).toHaveLength(partsOf(result.line))
      for (const line of result.line.lines) assertNoGap(line)
    })

    it('is stitched everywhere else as without them', () => {
      const wanted = plain.pieces.pieces
        .flatMap(({ stroke }) => placesOn(flattenStroke(stroke, 0.05)))
        .filter((p, i) => i % 11 === 0 && isClearOf(avoid, p, 0.55))
      expect(furthestFrom(result.chords, wanted)).toBeLessThan(0.1)
    })

    it('is stitched along each edge that is asked for and can be reached', () => {
      const { net } = result.line
      const edges = net.seams.filter(({ edge, ditch }) => edge && ditch !== undefined)
      const places = edges.flatMap(({ edge }) => flattenStroke(edge!.stroke, 0.01))
      expect(furthestFrom(result.chords, places)).toBeLessThan(0.05)
      const isAsked = new Set(edges.map(({ edge }) => avoid[edge!.region]!.outline))
      expect(isAsked.has('as-needed')).toBe(false)
    })
  },
)

/** Four bands about a centre of 10 x 13 in; with its binding the quilt is 20 1/2 x 23 1/2 in. */
const file = (more: Record<string, unknown>, centre = 'none') =>
  JSON.stringify(
    {
      centre: { width: 10, height: 13, filler: centre },
      bands: [
        { name: 'sand', width: 1, filler: 'bracket' },
        { name: 'swell', width: 2, filler: 's-echo' },
        { name: 'rope', width: 1, filler: 'loop-line' },
        { name: 'foam', width: 1, filler: 'scallop' },
      ],
      machine: { reach: [12, 12] },
      ...more,
    },
    null,
    1,
  )

const sun = { name: 'sun', circle: { at: [4, 4], radius: 1.5 } }

describe('a region to stay out of', () => {
  const roundSun = planFromText(file({ avoid: [sun] }), CATALOG)

  it('is stitched all round, unless the line is only to get round it', () => {
    const whole = roundSun.report
    const needed = planFromText(file({ avoid: [{ ...sun, outline: 'as-needed' }] }), CATALOG).report
    // A circle of radius 1.5 in is 2 pi 38.1 mm = 239.389 mm round.
    expect(whole.regions[0]).toMatchObject({
      name: 'sun',
      outlined: true,
      outlinedMm: 239.389,
      edgeMm: 239.389,
    })
    expect(needed.regions[0]).toMatchObject({ outlined: false, outlinedMm: 0 })
    expect(needed.regions[0]!.roundMm).toBeGreaterThan(0)
    expect(needed.regions[0]!.roundMm).toBeLessThan(239)
    expect(needed.line.threadStarts).toBe(1)
    expect(whole.line.threadStarts).toBe(1)
  })

  it('makes the line as much longer as the report says', () => {
    const { line, filled } = planned(file({ avoid: [sun] }))
    const { report } = roundSun
    const fills = line.net.fills.reduce((sum, { length }) => sum + length, 0)
    const { outlinedMm } = report.regions[0]!
    expect(report.line.lengthMm).toBeCloseTo(fills + outlinedMm + report.line.travelMm + restitched(line), 1)
    expect(filled.pieces.pieces.length).toBeGreaterThan(filled.whole.pieces.length)
  })

  it('may lie in the filled centre, on a pieced band, or over the edge of the quilt', () => {
    for (const [at, radius] of [
      [[10, 12], 2],
      [[0, 12], 2.5],
      [[20, 23], 3],
    ] as const) {
      const result = planned(file({ avoid: [{ circle: { at, radius } }] }, 'crosshatch'))
      expect(deepest(result)).toBeLessThan(0.1)
      expect(result.line.lines).toHaveLength(1)
    }
  })

  it('can overlap another, or share an edge with it: they are one to the line', () => {
    const square = (x: number) => ({
      polygon: [
        [x, 1],
        [x + 2, 1],
        [x + 2, 4],
        [x, 4],
      ],
    })
    for (const other of [square(8), square(9)]) {
      const result = planned(file({ avoid: [square(7), other] }))
      expect(deepest(result)).toBeLessThan(0.1)
      expect(result.line.lines).toHaveLength(1)
      const edge = result.line.net.seams.filter((seam) => seam.edge)
      const inside = edge.flatMap((seam) => flattenStroke(seam.edge!.stroke, 0.1).slice(1, -1))
      for (const region of result.filled.quilt.regions!)
        for (const p of inside) expect(depthIn(region, p)).toBeLessThan(1e-6)
    }
  })

  it('can cut the quilt in two: then there are two starts, and the report says so', () => {
    const bar = {
      polygon: [
        [-1, 10],
        [22, 10],
        [22, 12],
        [-1, 12],
      ],
    }
    const { report } = planFromText(file({ avoid: [bar] }), CATALOG)
    expect(report.line.threadStarts).toBe(2)
    expect(report.line.threadStartsBound).toBe(2)
    expect(report.warnings.map(({ code }) => code)).toContain('route/second-start')
  })

  it('can cover a whole band: it is left out, with a word', () => {
    const { report } = planFromText(
      file({ avoid: [{ name: 'sun', circle: { at: [10.25, 11.75], radius: 9.7 } }] }),
      CATALOG,
    )
    expect(report.warnings).toContainEqual(
      expect.objectContaining({ code: 'avoid/band-covered', at: 'sand' }),
    )
    expect(report.bands[0]).toMatchObject({ stitchedMm: 0, gapMm: 0 })
    expect(report.line.threadStarts).toBe(report.line.threadStartsBound)
  })

  it('is no gap of the quilting if it is stitched round, and its own size is held against the limit', () => {
    const whole = planFromText(file({ avoid: [sun], batting: { limit: 2 } }), CATALOG).report
    const needed = planFromText(
      file({ avoid: [{ ...sun, outline: 'as-needed' }], batting: { limit: 2 } }),
      CATALOG,
    ).report
    expect(whole.regions[0]!.sizeMm).toBeCloseTo(76.2, 0)
    expect(whole.regions[0]!.withinLimit).toBe(false)
    expect(whole.warnings).toContainEqual(
      expect.objectContaining({ code: 'check/region-open', at: 'avoid[0]' }),
    )
    const gaps = ({ bands }: typeof whole) => Math.max(...bands.map(({ gapMm }) => gapMm ?? 0))
    expect(gaps(whole)).toBeLessThan(50)
    expect(gaps(needed)).toBeGreaterThan(gaps(whole))
  })

  it('is named in the order of work, where the line goes along its edge and where it ends on it', () => {
    const { drawing } = roundSun
    const words = orderSteps(drawing).map((step) => step.words)
    expect(words.some((text) => /^Stitch along the edge of sun, \S+/.test(text))).toBe(true)
    expect(words.some((text) => /^Swell band.*ending on the edge of sun\.$/.test(text))).toBe(true)
  })

  it('is told of if no line gets to its edge', () => {
    const island = { name: 'island', circle: { at: [10, 12], radius: 1 } }
    const { report } = planFromText(file({ avoid: [island] }), CATALOG)
    expect(report.regions[0]!.outlined).toBe(false)
    expect(report.warnings).toContainEqual(
      expect.objectContaining({ code: 'route/region-unreached', at: 'avoid[0]' }),
    )
    expect(report.line.threadStarts).toBe(1)
  })
})

/** Length of filler that is stitched a second time, mm. */
const restitched = ({ route, net }: PlannedLine): number => {
  const passes = route.walks.flatMap(({ steps }) => steps.map(({ edge }) => edge))
  const again = passes.filter((edge, i) => edge < net.fills.length && passes.indexOf(edge) < i)
  return again.reduce((sum, edge) => sum + net.fills[edge]!.length, 0)
}

describe('an impossible wish', () => {
  const refusal = (text: string): PlanError => {
    try {
      planFromText(text, CATALOG)
    } catch (error) {
      if (error instanceof PlanError) return error
      throw error
    }
    throw new Error('was planned')
  }

  it('is a start or an end inside of a region, with its place in the file', () => {
    const corner = { circle: { at: [0, 0], radius: 3 } }
    for (const key of ['start', 'end']) {
      const text = file({ route: { [key]: 'top-left' }, avoid: [corner] })
      const [problem] = refusal(text).problems
      expect(problem).toMatchObject({ code: 'route/place', at: `route.${key}` })
      expect(problem!.message).toMatch(/lies in a region that is kept free/)
      expect(text.split('\n')[problem!.position!.line - 1]).toContain('top-left')
    }
  })

  it('is a start in the middle of a side that a region covers, but not beside it', () => {
    const start = { band: 'swell', side: 'top' }
    const over = (radius: number) =>
      file({ route: { start }, avoid: [{ circle: { at: [10.25, 3.25], radius } }] })
    expect(refusal(over(1.4)).problems[0]).toMatchObject({ code: 'route/place', at: 'route.start' })
    expect(planned(over(0.5)).line.lines).toHaveLength(1)
  })

  it('is a region that leaves nothing to stitch', () => {
    const text = file({ avoid: [{ name: 'sea', circle: { at: [10, 12], radius: 30 } }] })
    const [problem] = refusal(text).problems
    expect(problem).toMatchObject({ code: 'avoid/nothing-left', at: 'avoid[0]' })
    expect(problem!.message).toMatch(/^sea covers all/)
    expect(
      text
        .split('\n')
        .slice(problem!.position!.line - 1)
        .join('\n'),
    ).toMatch(/^\s*\{\s*"name": "sea"/)
  })
})

it('finds a line that goes through a region', () => {
  const result = planned(file({}))
  const [p, q] = [result.chords[0]![40]!, result.chords[0]!.at(-1)!]
  const region = { kind: 'circle', centre: p, radius: 20, name: 'region 1', outline: 'whole' } as const
  const quilt = { ...result.filled.quilt, regions: [region] }
  expect(deepest({ ...result, filled: { ...result.filled, quilt } })).toBeGreaterThan(10)
  expect(depthIn(region, q)).toBe(0)
  expect(furthestFrom([[p, q]], flattenStroke(outlineOf(region), 0.1))).toBeGreaterThan(10)
})
