import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { distanceToLine, type Point } from '../../src/geometry/point.ts'
import { endOf, strokeLength } from '../../src/geometry/stroke.ts'
import { placeVertex, type WantedPlace } from '../../src/pieces/place-vertex.ts'
import { fillQuilt, planFromText, threadQuilt } from '../../src/pipeline.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { refusalsOf } from '../support/refusals.ts'

const CATALOG = catalogOf(LIBRARY)
const bands = [
  { name: 'sand', width: 1, filler: 'bracket' },
  { name: 'rope', width: 1.5, filler: 'loop-line', thread: '#1d3f57' },
  { name: 'foam', width: 1.5, filler: 'scallop' },
]
const frame = { kind: 'frame', throat: 9, overlap: 1 }
const file = (more: object) =>
  JSON.stringify({ centre: { width: 8, height: 8 }, bands, machine: frame, ...more })

describe('a place where nothing is stitched', () => {
  const { quilt, pieces } = fillQuilt(readPlan(file({}), CATALOG).plan, CATALOG)
  const bare = {
    quilt,
    pieces: { ...pieces, pieces: [], ditched: [] },
    net: { positions: [], fills: [], seams: [] },
  }
  const asked = (place: WantedPlace) => refusalsOf(() => placeVertex(place, bare, 'route.start'))

  it('is refused with its band, or with the quilt where it is a corner of that', () => {
    expect(asked({ kind: 'side', band: 1, side: 0 })).toEqual([
      'route/place route.start: nothing is stitched in band "rope"',
    ])
    expect(asked({ kind: 'corner', corner: 2 })).toEqual([
      'route/place route.start: nothing is stitched in this quilt',
    ])
  })

  it('is no matter where the line may begin anywhere', () => {
    expect(placeVertex({ kind: 'anywhere' }, bare, 'route.start')).toBeUndefined()
  })
})

describe('on a frame', () => {
  it('ends cannot be asked for with several threads, and both are told', () => {
    const refused = (route: object) => refusalsOf(() => planFromText(file({ route }), CATALOG))
    expect(refused({ start: 'top-left' })).toEqual([
      'route/frame route.start: is not planned on a frame with several threads',
    ])
    expect(refused({ start: 'top-left', end: { band: 'rope', side: 'left' } })).toEqual([
      'route/frame route.start: is not planned on a frame with several threads',
      'route/frame route.end: is not planned on a frame with several threads',
    ])
  })

  it('an end is kept where it lies in the last pass, as a start is in the first', () => {
    const one = bands.map(({ thread: _, ...band }) => band)
    const { line } = threadQuilt(
      fillQuilt(
        readPlan(file({ bands: one, route: { start: 'top-left', end: 'bottom-right' } }), CATALOG).plan,
        CATALOG,
      ),
      CATALOG,
    )
    const [{ route, net }] = line.works as [(typeof line.works)[number]]
    const [first, last] = [route.walks[0]!.start, route.walks.at(-1)!.end].map((v) => net.positions[v]!)
    expect(Math.hypot(...first!)).toBeLessThan(60)
    const size = (8 + 2 * 4) * 25.4
    expect(Math.hypot(size - last![0], size - last![1])).toBeLessThan(60)
  })

  it('each seam in the ditch is stitched once, with the thread of its band', () => {
    const planned = planFromText(file({ route: { ditch: 'rings' } }), CATALOG)
    const ditches = planned.drawing.lines.flatMap(({ thread, parts }) =>
      parts.flatMap(({ kind, stroke }) => (kind === 'ditch' ? [{ thread, stroke }] : [])),
    )
    expect(new Set(ditches.map(({ thread }) => thread)).size).toBe(2)
    const ring = planned.quilt.rings[1]!
    const onRing = (p: Point) =>
      Math.min(...ring.map((corner, i) => distanceToLine(p, corner, ring[(i + 1) % 4]!))) < 0.01
    for (const { thread, stroke } of ditches)
      expect(thread === '#1d3f57').toBe(onRing(stroke.start) && onRing(endOf(stroke)))
    const length = (colour: boolean) =>
      ditches.reduce(
        (sum, { thread, stroke }) => sum + ((thread === '#1d3f57') === colour ? strokeLength(stroke) : 0),
        0,
      )
    // The ring inside "rope" is 10 in square; the others 8 and 13.
    expect(length(true)).toBeCloseTo(4 * 10 * 25.4, 3)
    expect(length(false)).toBeCloseTo(4 * (8 + 13) * 25.4, 3)
  })

  it('a centre whose line goes deeper than the throat is refused at its place', () => {
    const centre = { width: 20, height: 20, filler: 'echo-rails' }
    expect(refusalsOf(() => planFromText(file({ centre, bands: bands.slice(0, 1) }), CATALOG))).toEqual([
      expect.stringMatching(
        /^route\/throat centre: a piece of its line is \d+ mm deep; the throat takes 228 mm$/,
      ),
    ])
  })
})
