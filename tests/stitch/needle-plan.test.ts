import { describe, expect, it } from 'vitest'
import { arc } from '../../src/geometry/segment.ts'
import { type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import type { Line, LinePart } from '../../src/stitch/line.ts'
import { planNeedles, tieZones } from '../../src/stitch/needle-plan.ts'
import { STITCH_DEFAULTS, type StitchSettings } from '../../src/stitch/settings.ts'
import { layTrack } from '../../src/stitch/track.ts'

const part = (stroke: Stroke, kind: LinePart['kind'] = 'fill'): LinePart => ({ kind, area: 0, stroke })
const lineOf = (...parts: LinePart[]): Line => ({ parts, thread: 'cream' })
const through = (...xs: number[]): Stroke => strokeThrough(xs.map((x) => [x, 0]))
const untied: StitchSettings = { ...STITCH_DEFAULTS, tieOff: { count: 0, lengthMm: 0.4 } }

const zonesOf = (line: Line, settings = STITCH_DEFAULTS) =>
  tieZones(line, layTrack(line, settings.cuspAngle), settings)
const planOf = (line: Line, settings = untied) => {
  const plan = planNeedles(layTrack(line, settings.cuspAngle), zonesOf(line, settings), settings)
  return { along: [...plan.along], pieces: [...plan.pieces], fixed: [...plan.fixed] }
}
const close = (found: readonly number[], expected: readonly number[]) => {
  expect(found).toHaveLength(expected.length)
  expected.forEach((value, i) => {
    expect(found[i]).toBeCloseTo(value, 6)
  })
}
const evenly = (count: number, from: number, to: number): number[] =>
  Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count)

describe('the tie-offs of a line', () => {
  it('are as many short stitches as asked at either end', () => {
    expect(zonesOf(lineOf(part(through(0, 100))))).toEqual([
      { from: 0, to: 2 },
      { from: 98, to: 100 },
    ])
  })

  it('take at most a quarter of a short line each', () => {
    expect(zonesOf(lineOf(part(through(0, 4))))).toEqual([
      { from: 0, to: 1 },
      { from: 3, to: 4 },
    ])
  })

  it('are none where none are asked for', () => {
    expect(zonesOf(lineOf(part(through(0, 100))), untied)).toEqual([])
  })

  it('are the parts drawn for that, one after the other as one', () => {
    const line = lineOf(
      part(through(0, 1, 2), 'tie-off'),
      part(through(2, 3), 'tie-off'),
      part(through(3, 50)),
      part(through(50, 52), 'tie-off'),
    )
    expect(zonesOf(line)).toEqual([
      { from: 0, to: 3 },
      { from: 50, to: 52 },
    ])
    expect(zonesOf(line, untied)).toHaveLength(2)
  })
})

describe('needle points', () => {
  it('divide a straight line evenly, each piece told, both ends fixed', () => {
    const plan = planOf(lineOf(part(through(0, 11))))
    close(plan.along, evenly(5, 0, 11))
    expect(plan.pieces).toEqual([0, 0, 0, 0, 0, 0])
    expect(plan.fixed).toEqual([1, 0, 0, 0, 0, 1])
  })

  it('take no stitch more than needed where the length comes out even', () => {
    expect(planOf(lineOf(part(through(0, 25)))).along).toHaveLength(11)
    expect(planOf(lineOf(part(through(0, 25.001)))).along).toHaveLength(12)
    expect(planOf(lineOf(part(through(0, 1)))).along).toEqual([0, 1])
  })

  it('stand at every cusp, and run on over a smooth joint', () => {
    const bent = strokeThrough([
      [0, 0],
      [3, 0],
      [6, 0],
      [6, 4],
    ])
    const plan = planOf(lineOf(part(bent)))
    close(plan.along, [0, 2, 4, 6, 8, 10])
    expect(plan.fixed).toEqual([1, 0, 0, 1, 0, 1])
    expect(plan.pieces).toEqual([0, 0, 1, 1, 2, 2])
  })

  it('take a turn for a cusp only above the angle that is set', () => {
    const turn = (angle: number) =>
      lineOf(
        part(
          strokeThrough([
            [0, 0],
            [10, 0],
            [10 + 10 * Math.cos(angle), 10 * Math.sin(angle)],
          ]),
        ),
      )
    const { cuspAngle } = untied
    expect(planOf(turn(cuspAngle + 0.01)).fixed.filter((fixed) => fixed)).toHaveLength(3)
    expect(planOf(turn(cuspAngle - 0.01)).fixed.filter((fixed) => fixed)).toHaveLength(2)
  })

  const circle = (radius: number): Stroke => ({
    start: [radius, 0],
    segments: [arc([radius, 0], [0, 0], 2 * Math.PI)],
  })

  // Sagitta s of an arc a on radius R: s = R (1 - cos(a / 2R)) (Euclid III.35), for 0.8 of the tolerance of 0.1.
  it.each([1, 2, 3, 5, 8])('are as far apart on a circle of radius %d as its sagitta allows', (radius) => {
    const longest = 2 * radius * Math.acos(1 - 0.08 / radius)
    const round = 2 * Math.PI * radius
    const count = Math.ceil(round / Math.min(2.5, longest))
    close(planOf(lineOf(part(circle(radius)))).along, evenly(count, 0, round))
  })

  it('are never planned closer than the shortest stitch, however tight the curve', () => {
    for (const radius of [0.5, 0.3, 0.03]) {
      const settings = { ...untied, minLength: 0.6 }
      const round = 2 * Math.PI * radius
      const longest = 2 * radius * Math.acos(Math.max(-1, 1 - 0.08 / radius))
      const count = Math.max(1, Math.ceil(round / Math.max(0.6, longest)))
      close(planOf(lineOf(part(circle(radius))), settings).along, evenly(count, 0, round))
    }
  })

  it('are as close as asked in a tie-off, and stand at its end', () => {
    const plan = planOf(lineOf(part(through(0, 29))), STITCH_DEFAULTS)
    close(plan.along, [...evenly(5, 0, 2), ...evenly(10, 2, 27).slice(1), ...evenly(5, 27, 29).slice(1)])
    expect(plan.fixed.filter((fixed) => fixed)).toHaveLength(2)
  })

  it('stand at the ends of tie-offs even where the stitches between do not come out even', () => {
    const wanted = [...evenly(5, 0, 2), ...evenly(11, 2, 28).slice(1), ...evenly(5, 28, 30).slice(1)]
    for (const xs of [
      [0, 30],
      [0, 1, 2, 3, 30],
      [0, 13, 28, 30],
    ]) {
      const plan = planOf(lineOf(part(through(...xs))), STITCH_DEFAULTS)
      close(plan.along, wanted)
      expect(plan.fixed.filter((fixed) => fixed)).toHaveLength(2)
    }
  })

  it('stand at both ends of a tie-off that is drawn into the middle of a line', () => {
    const line = lineOf(part(through(0, 7)), part(through(7, 7.9), 'tie-off'), part(through(7.9, 15)))
    close(planOf(line).along, [
      ...evenly(3, 0, 7),
      ...evenly(3, 7, 7.9).slice(1),
      ...evenly(3, 7.9, 15).slice(1),
    ])
  })

  it('share a stretch evenly where a tie-off reaches over a joint into the next piece', () => {
    const plan = planOf(lineOf(part(through(0, 1, 29))), STITCH_DEFAULTS)
    close(plan.along, [...evenly(5, 0, 2), ...evenly(10, 2, 27).slice(1), ...evenly(5, 27, 29).slice(1)])
    expect(plan.pieces.slice(0, 6)).toEqual([0, 0, 0, 1, 1, 1])
  })

  it('take their share of the tightest and of the widest piece', () => {
    // A half circle of radius 2 between straight pieces that it joins smoothly: one stretch of three pieces.
    const hairpin: Stroke = {
      start: [-10, 0],
      segments: [{ kind: 'line', to: [0, 0] }, arc([0, 4], [0, 2], Math.PI), { kind: 'line', to: [-10, 4] }],
    }
    const longest = 4 * Math.acos(1 - 0.08 / 2)
    const load = 10 / 2.5 + (2 * Math.PI) / longest + 10 / 2.5
    const count = Math.ceil(load)
    const { along, pieces } = planOf(lineOf(part(hairpin)))
    expect(along).toHaveLength(count + 1)
    // Before the bend, each takes the same share of 2.5 mm; in it, of the shorter.
    const step = (2.5 * load) / count
    close(along.slice(0, 4), [0, step, 2 * step, 3 * step])
    const inBend = along.filter((_, i) => pieces[i] === 1)
    expect(inBend.length).toBeGreaterThan(2)
    for (let i = 1; i < inBend.length; i++)
      expect(inBend[i]! - inBend[i - 1]!).toBeCloseTo((longest * load) / count, 6)
    expect(along.at(-1)).toBeCloseTo(20 + 2 * Math.PI, 9)
  })
})
