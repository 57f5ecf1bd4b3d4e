import { describe, expect, it } from 'vitest'
import type * as z from 'zod'
import { MOTIFS } from '../../motifs/index.ts'
import type { PlanError } from '../../src/error.ts'
import { distance, lerp, type Point } from '../../src/geometry/point.ts'
import { endOf } from '../../src/geometry/stroke.ts'
import { type PlannedLine, planLine } from '../../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf } from '../../src/pipeline.ts'
import type { planFormat } from '../../src/plan/format.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import type { Quilt } from '../../src/quilt/quilt.ts'
import { measureLines } from '../../src/report/measure-line.ts'
import type { LinePart } from '../../src/stitch/line.ts'

type PlanFile = z.input<typeof planFormat>

const file: PlanFile = {
  centre: { width: 10, height: 13 },
  bands: [
    { name: 'sand', width: 1, filler: 'bracket' },
    { name: 'rope', width: 1.5, filler: 'loop-line' },
    { name: 'swell', width: 2.5, filler: 's-echo' },
    { name: 'stripe', width: 1, filler: 'none' },
    { name: 'foam', width: 1.5, filler: 'scallop' },
  ],
  machine: { reach: [12, 12] },
}

const catalog = { motifs: MOTIFS }

interface Planned extends PlannedLine {
  readonly quilt: Quilt
}

function planned(route: NonNullable<PlanFile['route']>): Planned {
  const task = lineTaskOf(fillQuilt(readPlan(JSON.stringify({ ...file, route }), catalog).plan, catalog))
  return { ...planLine(task), quilt: task.quilt }
}

const movesOf = ({ lines }: Planned): number =>
  measureLines(lines, { reach: [304.8, 304.8] }).repositions.length
const partsOf = ({ lines }: Planned): readonly LinePart[] => lines.flatMap(({ parts }) => parts)
const startOf = (quilt: Planned): Point => partsOf(quilt)[0]!.stroke.start
const lastOf = (quilt: Planned): Point => endOf(partsOf(quilt).at(-1)!.stroke)

/** The bands in the order in which the line first stitches them. */
const bandsInOrder = (quilt: Planned): number[] => [
  ...new Set(partsOf(quilt).flatMap(({ kind, band }) => (kind === 'fill' ? [band!] : []))),
]

const plain = planned({})

describe('a wanted start and end', () => {
  const corners = ['top-left', 'top-right', 'bottom-right', 'bottom-left']

  it.each(corners)('begins the line in the %s corner of the outermost quilted band', (corner) => {
    const quilt = planned({ start: corner })
    const wanted = quilt.quilt.rings.at(-1)![corners.indexOf(corner)]!
    expect(distance(startOf(quilt), wanted)).toBeLessThan(60)
    expect(quilt.lines).toHaveLength(1)
  })

  it.each(corners)('ends the line in the %s corner', (corner) => {
    const quilt = planned({ end: corner })
    expect(distance(lastOf(quilt), quilt.quilt.rings.at(-1)![corners.indexOf(corner)]!)).toBeLessThan(60)
  })

  it.each(['top', 'right', 'bottom', 'left'] as const)(
    'begins on a seam of the band asked for, at the middle of its %s',
    (side) => {
      const quilt = planned({ start: { band: 'swell', side } })
      const { innerA, innerB, outerA, outerB } =
        quilt.quilt.bands[2]!.sides[['top', 'right', 'bottom', 'left'].indexOf(side)]!
      const middles = [lerp(innerA, innerB, 0.5), lerp(outerA, outerB, 0.5)]
      expect(Math.min(...middles.map((m) => distance(m, startOf(quilt))))).toBeLessThan(15)
    },
  )

  it('keeps both ends when both are asked for', () => {
    const quilt = planned({ start: { band: 'sand', side: 'left' }, end: 'bottom-right' })
    expect(distance(lastOf(quilt), quilt.quilt.rings.at(-1)![2]!)).toBeLessThan(60)
    expect(startOf(quilt)[0]).toBeLessThan(quilt.quilt.widthMm / 2)
    expect(quilt.lines).toHaveLength(1)
  })

  it('costs what the report says: the stitched pieces, and the travel and overlap that it counts', () => {
    for (const start of ['top-right', 'bottom-right']) {
      const { lines, route, net } = planned({ start, end: 'top-left' })
      const pieces = net.fills.reduce((sum, { length }) => sum + length, 0)
      const { lengthMm, travelMm } = measureLines(lines, { reach: [304.8, 304.8] })
      expect(lengthMm).toBeCloseTo(pieces + route.travelMm + route.overlapMm, 6)
      expect(travelMm).toBeCloseTo(route.travelMm, 6)
      expect(route.extra).toBeGreaterThanOrEqual(plain.route.lowerBound - 1e-3)
    }
  })

  it('refuses a band that is not quilted, with its place in the file', () => {
    const text = JSON.stringify({ ...file, route: { start: { band: 'stripe', side: 'top' } } }, null, 2)
    let problem: PlanError['problems'][number] | undefined
    try {
      readPlan(text, catalog)
    } catch (error) {
      problem = (error as PlanError).problems[0]
    }
    expect(problem?.code).toBe('plan/place')
    expect(problem?.at).toBe('route.start.band')
    expect(problem?.message).toMatch(/"stripe"; nothing is stitched/)
    expect(text.split('\n')[problem!.position!.line - 1]).toContain('stripe')
  })
})

describe('a wanted order', () => {
  it('works from the middle outward', () => {
    expect(bandsInOrder(planned({ order: 'middle-out' })).at(-1)).toBe(4)
  })

  it('works from the outside in', () => {
    expect(bandsInOrder(planned({ order: 'outside-in' }))[0]).toBe(4)
  })

  it('finishes each band before the next when laps are asked for, in either order', () => {
    for (const [order, bands] of [
      ['middle-out', [0, 1, 2, 4]],
      ['outside-in', [4, 2, 1, 0]],
    ] as const) {
      const quilt = planned({ order, work: 'laps' })
      const fills = partsOf(quilt).filter(({ kind }) => kind === 'fill')
      const order4 = fills.map(({ band }) => band!).filter((band, i, all) => band !== all[i - 1])
      expect(order4).toEqual(bands)
      expect(quilt.areas).toHaveLength(4)
      expect(fills.every(({ band, area }) => area === bands.indexOf(band as never))).toBe(true)
    }
  })

  it('moves the quilt more often lap by lap than area by area', () => {
    expect(movesOf(planned({ work: 'laps' }))).toBeGreaterThan(movesOf(plain))
  })
})
