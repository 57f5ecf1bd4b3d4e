import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { sumTurning } from '../../src/check/turning.ts'
import { compareStrategies } from '../../src/compare.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import { planLine } from '../../src/pieces/plan-line.ts'
import { fillQuilt, lineTaskOf, planFromText } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { chordsOf, measureLines } from '../../src/report/measure-line.ts'
import { ROUTE_WEIGHTS } from '../../src/route/index.ts'

const CATALOG = catalogOf(LIBRARY)
const REACH = [304.8, 304.8] as const

/** Three bands about a centre of 10 x 13 in. */
function text({
  route = {},
  machine = {},
  swell = {},
}: Partial<Record<'route' | 'machine' | 'swell', object>>) {
  return JSON.stringify({
    centre: { width: 10, height: 13 },
    bands: [
      { name: 'sand', width: 1.5, filler: 'piano-keys' },
      { name: 'swell', width: 2, filler: 'wave', ...swell },
      { name: 'foam', width: 1.5, filler: 'scallop' },
    ],
    machine: { reach: [12, 12], ...machine },
    route,
  })
}

function planned(wanted: Parameters<typeof text>[0]) {
  const task = lineTaskOf(fillQuilt(readPlan(text(wanted), CATALOG).plan, CATALOG))
  const line = planLine(task)
  return {
    ...line,
    figures: measureLines(line.lines, { reach: REACH, sector: Math.PI / 3 }),
    quilt: task.quilt,
  }
}

type Planned = ReturnType<typeof planned>

/** What a line costs by the route's weights, with so many moves for a full turn of the quilt. */
const costOf = ({ route, figures }: Planned, turning = 0): number =>
  ROUTE_WEIGHTS.start * route.walks.length +
  route.extra +
  ROUTE_WEIGHTS.reposition * (figures.repositions.length + turning * figures.turns)

const partsOf = ({ lines }: Planned) => lines.flatMap(({ parts }) => parts)
const lengthOf = (quilt: Planned, kind: string) =>
  partsOf(quilt)
    .filter((part) => part.kind === kind)
    .reduce((sum, { stroke }) => sum + strokeLength(stroke), 0)

describe('seams that are asked for in the ditch', () => {
  const ditch = [{ inside: 'swell' }, { inside: 'foam' }]
  const first = planned({ route: { ditch, ditchOrder: 'first' } })
  const along = planned({ route: { ditch, ditchOrder: 'along' } })
  const any = planned({ route: { ditch } })
  // 2 (13 + 16) in and 2 (17 + 20) in: the inner seams of the two bands.
  const round = (2 * (13 + 16) + 2 * (17 + 20)) * 25.4

  it('come before everything else if they are to be first', () => {
    const kinds = partsOf(first).map(({ kind }) => kind)
    expect(kinds.lastIndexOf('ditch')).toBeLessThan(kinds.indexOf('fill'))
  })

  it('come along the way if they are to be part of the line', () => {
    const kinds = partsOf(along).map(({ kind }) => kind)
    expect(kinds.lastIndexOf('ditch')).toBeGreaterThan(kinds.indexOf('fill'))
  })

  it('come in whichever way costs less if that is left open', () => {
    expect(costOf(any)).toBeLessThanOrEqual(Math.min(costOf(first), costOf(along)) + 1e-6)
  })

  it('are stitched whole and once either way, in one line, at the cost that is told', () => {
    for (const quilt of [first, along, any]) {
      expect(quilt.lines).toHaveLength(1)
      expect(lengthOf(quilt, 'ditch')).toBeCloseTo(round, 3)
      const fills = quilt.net.fills.reduce((sum, { length }) => sum + length, 0)
      const { travelMm, overlapMm } = quilt.route
      expect(quilt.figures.lengthMm).toBeCloseTo(fills + round + travelMm + overlapMm, 3)
    }
  })
})

describe('sides that are quilted differently', () => {
  const usual = planFromText(text({}), CATALOG)
  const other = planFromText(text({ swell: { sides: { right: 'loop-line', left: 'none' } } }), CATALOG)
  const { innerA, outerA } = usual.quilt.bands[1]!.sides[3]!

  it('change the line on those sides only, which stays one', () => {
    expect(other.report.line.threadStarts).toBe(1)
    expect(other.report.bands[1]!.filler).toBe('wave, loop-line')
    // The middle of the left side, well within the band, from end to end of the strip.
    const leftOf = ({ drawing }: typeof usual) =>
      drawing.lines
        .flatMap(({ parts }) => parts)
        .filter(({ kind, band, stroke }) => {
          const [x, y] = stroke.start
          return kind === 'fill' && band === 1 && x > outerA[0] && x < innerA[0] && Math.abs(y - 280) < 60
        })
    expect(leftOf(other)).toHaveLength(0)
  })

  it('cost what the report says', () => {
    for (const { report, drawing } of [usual, other]) {
      const fill = drawing.lines
        .flatMap(({ parts }) => parts)
        .filter(({ kind, band }) => kind === 'fill' && band === 1)
        .reduce((sum, { stroke }) => sum + strokeLength(stroke), 0)
      expect(report.bands[1]!.stitchedMm).toBeCloseTo(fill, 2)
    }
    expect(other.report.bands[1]!.stitchedMm).not.toBeCloseTo(usual.report.bands[1]!.stitchedMm, 0)
  })
})

describe('turning the quilt under a walking foot', () => {
  const walking = { foot: 'walking' }

  it('is reported as the line itself turns, and costs time only with that foot', () => {
    const free = planFromText(text({}), CATALOG).report
    const { report, drawing } = planFromText(text({ machine: walking }), CATALOG)
    expect(report.line.turning).toMatchObject({ foot: 'walking', sectorDegrees: 60, weight: 0.5 })
    expect(report.line.turning.turns).toBeCloseTo(sumTurning(chordsOf(drawing.lines), Math.PI / 3), 2)
    expect(free.line.turning).toMatchObject({ foot: 'free-motion', weight: 0 })
    const minutes = ({ time }: typeof free) =>
      time.parts.find(({ what }) => what.endsWith('turns of the quilt'))!.minutes
    expect(minutes(free)).toBe(0)
    expect(minutes(report)).toBeCloseTo((report.line.turning.turns * 20) / 60, 2)
  })

  it('is less where more directions are comfortable', () => {
    const turns = [20, 60, 120, 360].map(
      (sector) =>
        planFromText(text({ machine: { ...walking, sector }, route: { turning: 0 } }), CATALOG).report.line
          .turning.turns,
    )
    expect(turns).toEqual([...turns].sort((a, b) => b - a))
    expect(turns[3]).toBeLessThan(turns[0]! / 4)
  })

  it('can be weighed: the line then costs least with it, and the quilt is turned less', () => {
    const plain = planned({ machine: walking, route: { turning: 0, work: 'laps' } })
    const weighed = planned({ machine: walking, route: { turning: 20, work: 'laps' } })
    expect(costOf(weighed, 20)).toBeLessThanOrEqual(costOf(plain, 20) + 1)
    expect(costOf(plain)).toBeLessThanOrEqual(costOf(weighed) + 1)
    expect(weighed.figures.turns).toBeLessThan(plain.figures.turns)
  })

  it('speaks for laps where ways to work are compared, if it weighs enough', () => {
    const chosen = (turning: number) => {
      const { plan } = readPlan(text({ machine: walking, route: { turning } }), CATALOG)
      const { strategies, choice, why } = compareStrategies(plan, CATALOG)
      return { ...strategies[choice]!, why }
    }
    expect(chosen(0).way).toBe('areas')
    expect(chosen(100)).toMatchObject({
      way: 'laps',
      why: expect.stringMatching(/^the quilt is turned less/),
    })
  })
})
