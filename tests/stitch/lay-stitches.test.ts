import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PlanError } from '../../src/error.ts'
import { arc, cubic, line as straight } from '../../src/geometry/segment.ts'
import { StrokeBuilder, strokeThrough } from '../../src/geometry/stroke.ts'
import {
  countByBand,
  countByPart,
  layStitches,
  type Stitches,
  stitchLength,
} from '../../src/stitch/lay-stitches.ts'
import type { Line, LinePart } from '../../src/stitch/line.ts'
import { STITCH_DEFAULTS, type StitchSettings } from '../../src/stitch/settings.ts'
import { someCrampedLine, someLine } from './random-line.ts'
import { faultsOf, lengthOfLine } from './valid-stitches.ts'

const part = (stroke: LinePart['stroke'], more: Partial<LinePart> = {}): LinePart => ({
  kind: 'fill',
  area: 0,
  stroke,
  ...more,
})
const lineOf = (...parts: LinePart[]): Line => ({ parts, thread: 'cream' })
const noTies: StitchSettings = { ...STITCH_DEFAULTS, tieOff: { count: 0, lengthMm: 0.4 } }
const lengths = (stitches: Stitches) =>
  Array.from({ length: stitches.count }, (_, i) => stitchLength(stitches, i))

describe('stitches along a line', () => {
  it('keep every rule on 200 random lines', () => {
    fc.assert(
      fc.property(someLine, fc.constantFrom(1.5, 2, 2.5, 3.5), (line, lengthMm) => {
        const settings = { ...STITCH_DEFAULTS, lengthMm }
        const stitches = layStitches(line, settings)
        expect(faultsOf(line, stitches, settings)).toEqual([])
        expect(stitches.worstChordError).toBeLessThanOrEqual(settings.chordTolerance)
      }),
      { seed: 1, numRuns: 200 },
    )
  })

  // Sagitta of the shortest stitch within a circle: R - sqrt(R² - 0.25²) is over 0.1 mm for R under 0.3625 mm (Euclid
  // III.35), and a turn of radius R strays by no more than R from a stitch to its far end.
  it.each([0.03, 0.06, 0.1, 0.4, 0.45, 0.6, 1])('keep to a hairpin of radius %s mm', (radius) => {
    for (let leg = 20; leg < 22.5; leg += 0.25) {
      const there = new StrokeBuilder([0, 0]).lineTo([leg, 0])
      const back = there.push(arc([leg, 2 * radius], [leg, radius], Math.PI)).lineTo([0, 2 * radius])
      const line = lineOf(part(back.build()))
      expect(faultsOf(line, layStitches(line), STITCH_DEFAULTS)).toEqual([])
    }
  })

  it('stray from a hairpin between by no more than a half over the tolerance, and tell it', () => {
    const there = new StrokeBuilder([0, 0]).lineTo([20, 0])
    const line = lineOf(
      part(
        there
          .push(arc([20, 0.5], [20, 0.25], Math.PI))
          .lineTo([0, 0.5])
          .build(),
      ),
    )
    const stitches = layStitches(line)
    expect(faultsOf(line, stitches, STITCH_DEFAULTS).length).toBeGreaterThan(0)
    expect(stitches.worstChordError).toBeGreaterThan(0.1)
    expect(stitches.worstChordError).toBeLessThan(0.15)
  })

  it('are never too long nor too short on lines far more cramped than a stitch', () => {
    fc.assert(
      fc.property(someCrampedLine, (line) => {
        fc.pre(lengthOfLine(line) > STITCH_DEFAULTS.minLength)
        const stitches = layStitches(line)
        const faults = faultsOf(line, stitches, STITCH_DEFAULTS)
        expect(faults.filter((fault) => /long|only|cusps/.test(fault))).toEqual([])
        expect(stitches.xs[0]).toBeCloseTo(line.parts[0]!.stroke.start[0], 9)
        const end = line.parts.at(-1)!.stroke.segments.at(-1)!.to
        expect(Math.hypot(stitches.xs.at(-1)! - end[0], stitches.ys.at(-1)! - end[1])).toBeLessThan(1e-9)
      }),
      { seed: 2, numRuns: 200 },
    )
  })

  it('divide a straight line evenly', () => {
    const stitches = layStitches(
      lineOf(
        part(
          strokeThrough([
            [0, 0],
            [101, 0],
          ]),
        ),
      ),
      noTies,
    )
    expect(stitches.count).toBe(41)
    for (const length of lengths(stitches)) expect(length).toBeCloseTo(101 / 41, 9)
  })

  it('are short enough on a circle for the chord to stay within the tolerance', () => {
    const circle = { start: [3, 0] as const, segments: [arc([3, 0], [0, 0], 2 * Math.PI)] }
    const stitches = layStitches(lineOf(part(circle)), noTies)
    // Sagitta of a chord: s = R - sqrt(R² - c²/4) (Euclid III.35).
    const sagittas = lengths(stitches).map((c) => 3 - Math.sqrt(9 - (c * c) / 4))
    expect(Math.max(...sagittas)).toBeLessThanOrEqual(0.1)
    expect(Math.max(...sagittas)).toBeGreaterThan(0.05)
    expect(stitches.worstChordError).toBeCloseTo(Math.max(...sagittas), 6)
  })

  it('are tied off with a few very short ones at both ends', () => {
    const stitches = layStitches(
      lineOf(
        part(
          strokeThrough([
            [0, 0],
            [100, 0],
          ]),
        ),
      ),
    )
    expect([...stitches.tied.slice(0, 6)]).toEqual([1, 1, 1, 1, 1, 0])
    expect([...stitches.tied.slice(-6)]).toEqual([0, 1, 1, 1, 1, 1])
    for (const length of lengths(stitches).slice(0, 5)) expect(length).toBeCloseTo(0.4, 9)
  })

  it('follow parts drawn as tie-offs instead of adding their own', () => {
    const tie = strokeThrough([
      [0, 0],
      [1.5, 0],
      [0, 0],
    ])
    const line = lineOf(
      part(tie, { kind: 'tie-off' }),
      part(
        strokeThrough([
          [0, 0],
          [0, 60],
        ]),
      ),
    )
    const stitches = layStitches(line)
    expect([...stitches.tied].filter((t) => t === 1)).toHaveLength(8)
    expect(stitches.tied.at(-1)).toBe(0)
  })

  it('give two cusps closer than the shortest stitch one needle point, and say so', () => {
    const jog = strokeThrough([
      [0, 0],
      [20, 0],
      [20, 0.3],
      [40, 0.3],
    ])
    const stitches = layStitches(lineOf(part(jog)), noTies)
    expect(stitches.mergedCusps).toBe(1)
    expect(Math.min(...lengths(stitches))).toBeGreaterThanOrEqual(0.5)
  })

  it('are counted by the band that they lie in', () => {
    const line = lineOf(
      part(
        strokeThrough([
          [0, 0],
          [50, 0],
        ]),
        { band: 0 },
      ),
      part({ start: [50, 0], segments: [straight([50, 10])] }, { kind: 'travel' }),
      part(
        strokeThrough([
          [50, 10],
          [0, 10],
        ]),
        { band: 1 },
      ),
    )
    const counts = countByBand(line, layStitches(line, noTies))
    expect(counts.map(({ band, count }) => [band, count])).toEqual([
      [0, 20],
      [undefined, 4],
      [1, 20],
    ])
    expect(counts[1]!.lengthMm).toBeCloseTo(10, 9)
    expect(countByPart(layStitches(line, noTies)).map(({ part, count }) => [part, count])).toEqual([
      [0, 20],
      [1, 4],
      [2, 20],
    ])
  })

  it('a line that began with a handle of no length had its first needle point nowhere: it has it at its start', () => {
    const from = [5, 7] as const
    const blunt = { start: from, segments: [cubic(from, [20, 7], [30, 20])] }
    const stitches = layStitches(lineOf(part(blunt)))
    expect([stitches.xs[0], stitches.ys[0]]).toEqual([5, 7])
    expect(stitches.xs.every(Number.isFinite)).toBe(true)
    expect(stitches.lengthMm / stitches.lineMm).toBeGreaterThan(0.99)
  })

  it('are refused for nonsense settings, all of it named at once', () => {
    const line = lineOf(
      part(
        strokeThrough([
          [0, 0],
          [50, 0],
        ]),
      ),
    )
    const bad = { ...STITCH_DEFAULTS, lengthMm: Number.NaN, chordTolerance: -1 }
    expect(() => layStitches(line, bad)).toThrow(PlanError)
    try {
      layStitches(line, bad)
    } catch (error) {
      expect((error as PlanError).problems.map((p) => p.at)).toEqual([
        'stitch.length',
        'stitch.chordTolerance',
      ])
    }
  })

  it('are refused for a line shorter than the shortest stitch', () => {
    const dot = lineOf(
      part(
        strokeThrough([
          [0, 0],
          [0.2, 0],
        ]),
      ),
    )
    expect(() => layStitches(dot)).toThrow(/0.2 mm long, the shortest stitch is 0.5 mm/)
  })
})

describe('the validator of stitches', () => {
  const line = lineOf(
    part(
      strokeThrough([
        [0, 0],
        [30, 0],
        [30, 30],
      ]),
    ),
  )
  const good = layStitches(line)
  const broken = (change: (stitches: Stitches) => Partial<Stitches>) =>
    faultsOf(line, { ...good, ...change(good) }, STITCH_DEFAULTS)

  it('finds nothing wrong with good stitches', () => {
    expect(broken(() => ({}))).toEqual([])
  })

  it('sees a stitch that is too long, and one that is too short', () => {
    const faults = broken(({ xs }) => ({ xs: xs.map((x, i) => (i === 8 ? x + 2.2 : x)) }))
    expect(faults.some((fault) => fault.endsWith('mm long'))).toBe(true)
    expect(faults.some((fault) => fault.includes('only'))).toBe(true)
  })

  it('sees a cusp that was cut off', () => {
    const corner = [...good.xs].findIndex((x, i) => x === 30 && good.ys[i] === 0)
    const without = <T extends Float64Array>(values: T) => values.filter((_, i) => i !== corner)
    const faults = broken((s) => ({
      count: s.count - 1,
      xs: without(s.xs),
      ys: without(s.ys),
      along: without(s.along),
    }))
    expect(faults.some((fault) => fault.includes('cusps'))).toBe(true)
    expect(faults.some((fault) => fault.includes('strays'))).toBe(true)
  })

  it('sees stitches that do not add up to the line', () => {
    expect(broken((s) => ({ lengthMm: s.lengthMm * 0.99 }))).toHaveLength(1)
  })
})
