import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { distance, distanceToLine, type Point } from '../../src/geometry/point.ts'
import { arc, cubic } from '../../src/geometry/segment.ts'
import { flattenStroke, joinStrokes, type Stroke, strokeThrough } from '../../src/geometry/stroke.ts'
import type { Line } from '../../src/stitch/line.ts'
import { type NeedlePlan, planNeedles, type TieZone } from '../../src/stitch/needle-plan.ts'
import { STITCH_DEFAULTS, type StitchSettings } from '../../src/stitch/settings.ts'
import { type Tidied, tidyNeedles } from '../../src/stitch/tidy-needles.ts'
import { layTrack, type Track } from '../../src/stitch/track.ts'
import { someCrampedLine, someLine } from './random-line.ts'

const SETTINGS: StitchSettings = { ...STITCH_DEFAULTS, tieOff: { count: 0, lengthMm: 0.4 } }
const lineOf = (stroke: Stroke): Line => ({ thread: 'cream', parts: [{ kind: 'fill', area: 0, stroke }] })
const trackOf = (stroke: Stroke): Track => layTrack(lineOf(stroke), SETTINGS.cuspAngle)

/** A plan of needle points at distances along a track; those that must be kept are named. */
function planAt(track: Track, along: readonly number[], kept: readonly number[]): NeedlePlan {
  return {
    along: Float64Array.from(along),
    pieces: Uint32Array.from(along, (s) => track.ends.findIndex((end) => end >= s - 1e-9)),
    fixed: Uint8Array.from(along, (s, i) => (i === 0 || i === along.length - 1 || kept.includes(s) ? 1 : 0)),
  }
}

interface Wanted {
  readonly kept?: readonly number[]
  readonly zones?: readonly TieZone[]
  readonly settings?: Partial<StitchSettings>
}

function tidied(
  stroke: Stroke,
  along: readonly number[],
  { kept = [], zones = [], settings = {} }: Wanted = {},
): Tidied {
  const track = trackOf(stroke)
  return tidyNeedles(planAt(track, along, kept), zones, { track, settings: { ...SETTINGS, ...settings } })
}

/** Where the needle goes down in the end, with what was laid anew in its place. */
function needlesOf({ needles, relays }: Tidied): Point[] {
  return [...needles.xs].flatMap((x, i) => {
    const isReplaced = relays.some(({ from, to }) => from < i && i < to)
    const before = relays.filter(({ to }) => to === i).flatMap((relay) => relay.needles)
    const point: Point = [x, needles.ys[i]!]
    return [...before.map((needle) => needle.point), ...(isReplaced ? [] : [point])]
  })
}

const addedTo = ({ relays }: Tidied) => relays.flatMap(({ needles }) => needles)

const straight = strokeThrough([
  [0, 0],
  [10, 0],
])
const level = (result: Tidied): number[] => needlesOf(result).map(([x]) => Number(x.toFixed(6)))

describe('stitches that are too short', () => {
  it.each([
    ['leave what is long enough', [0, 0.5, 1, 10], [], [0, 0.5, 1, 10], 0],
    ['give way to the start', [0, 0.3, 10], [], [0, 10], 0],
    ['give way to the end', [0, 9.7, 10], [], [0, 10], 0],
    ['give way to a cusp after them', [0, 4.8, 5, 10], [5], [0, 5, 10], 0],
    ['give way to a cusp before them', [0, 5, 5.2, 10], [5], [0, 5, 10], 0],
    ['give way to the first of two', [0, 5, 5.3, 10], [], [0, 5, 10], 0],
    ['give way to a cusp one after the other', [0, 4.6, 5.1, 5.3, 10], [5.3], [0, 4.6, 5.3, 10], 0],
    ['take the second of two cusps with them', [0, 5, 5.3, 10], [5, 5.3], [0, 5, 10], 1],
    ['take a cusp beside the start with them', [0, 0.3, 10], [0.3], [0, 10], 1],
    ['take cusps beside the end with them', [0, 9.6, 9.8, 10], [9.6, 9.8], [0, 10], 2],
    ['leave a short line its two ends', [0, 0.2, 10], [], [0, 10], 0],
  ] as const)('%s', (_, along, kept, expected, merged) => {
    const result = tidied(straight, along, { kept, settings: { lengthMm: 12 } })
    expect(level(result)).toEqual(expected)
    expect(result.mergedCusps).toBe(merged)
    expect(result.worstChordError).toBe(0)
  })

  it('are left where they belong to a tie-off, whole', () => {
    const zones = [{ from: 0, to: 0.6 }]
    const result = tidied(straight, [0, 0.2, 0.4, 0.6, 0.8, 10], { zones, settings: { lengthMm: 12 } })
    expect(level(result)).toEqual([0, 0.2, 0.4, 0.6, 10])
    expect([...result.needles.tied]).toEqual([0, 1, 1, 1, 0])
    const across = tidied(straight, [0, 0.4, 0.8, 10], { zones, settings: { lengthMm: 12 } })
    expect([...across.needles.tied]).toEqual([0, 1, 0])
  })

  it('keep every list of needle points as long as the others', () => {
    const { needles } = tidied(straight, [0, 5, 5.3, 10], { settings: { lengthMm: 12 } })
    for (const list of Object.values(needles)) expect(list).toHaveLength(3)
    expect([...needles.along]).toEqual([0, 5, 10])
    expect([...needles.fixed]).toEqual([1, 0, 1])
    expect([...needles.pieces]).toEqual([0, 0, 0])
  })
})

describe('stitches that are too long, or cut a curve', () => {
  it('are halved until none is too long', () => {
    const result = tidied(straight, [0, 10])
    expect(level(result)).toEqual([0, 2.5, 5, 7.5, 10])
    expect(result.relays.map(({ from, to }) => [from, to])).toEqual([[0, 1]])
    expect(level(tidied(straight, [0, 10], { settings: { lengthMm: 10 } }))).toEqual([0, 10])
    expect(level(tidied(straight, [0, 4, 10]))).toEqual([0, 2, 4, 5.5, 7, 8.5, 10])
  })

  it('hand on what they belong to', () => {
    const result = tidied(straight, [0, 10], { zones: [{ from: 0, to: 10 }] })
    expect(addedTo(result).map(({ tied }) => tied)).toEqual([1, 1, 1])
    expect(addedTo(tidied(straight, [0, 10])).map(({ tied }) => tied)).toEqual([0, 0, 0])
  })

  const corner = (leg: number): Stroke =>
    strokeThrough([
      [0, 0],
      [leg, 0],
      [leg, leg],
    ])

  it('are split at the corner that they cut', () => {
    const result = tidied(corner(1.6), [0, 3.2])
    expect(needlesOf(result)).toEqual([
      [0, 0],
      [1.6, 0],
      [1.6, 1.6],
    ])
    expect(result.worstChordError).toBe(0)
  })

  it('are left where a half would be too short, and the error is told', () => {
    const result = tidied(corner(0.4), [0, 0.8])
    expect(addedTo(result)).toEqual([])
    expect(result.worstChordError).toBeCloseTo(0.4 * Math.SQRT1_2, 9)
    expect(addedTo(tidied(corner(0.4), [0, 0.8], { settings: { minLength: 0.3 } }))).toHaveLength(1)
  })

  it('are laid anew, to stray as little as they can, where the corner lies too near one end', () => {
    const uneven = strokeThrough([
      [0, 0],
      [0.4, 0],
      [0.4, 2],
    ])
    const result = tidied(uneven, [0, 2.4])
    // The shortest stitch that goes round the corner, 3 to 4 to 5: it passes the corner at 0.3 times 0.4 over 0.5.
    const [first] = addedTo(result)
    expect(first!.point[0]).toBeCloseTo(0.4, 9)
    expect(Math.abs(first!.point[1] - 0.3)).toBeLessThan(0.06)
    expect(result.worstChordError).toBeGreaterThan(0.24 - 1e-9)
    expect(result.worstChordError).toBeLessThan(0.27)
  })

  it('may stray by just the tolerance', () => {
    const bent = corner(1.6)
    const off = 1.6 * Math.SQRT1_2
    expect(addedTo(tidied(bent, [0, 3.2], { settings: { chordTolerance: off + 1e-9 } }))).toEqual([])
    expect(addedTo(tidied(bent, [0, 3.2], { settings: { chordTolerance: off - 1e-6 } }))).toHaveLength(1)
  })

  // Sagitta of an arc a on radius R: R (1 - cos(a / 2R)) (Euclid III.35).
  it('on an arc are as far off as its sagitta, and halved while that is too much', () => {
    const half: Stroke = { start: [3, 0], segments: [arc([-3, 0], [0, 0], Math.PI)] }
    const result = tidied(half, [0, 3 * Math.PI], { settings: { lengthMm: 12 } })
    const needles = needlesOf(result)
    expect(needles).toHaveLength(9)
    needles.forEach((p, i) => {
      expect(p[0]).toBeCloseTo(3 * Math.cos((i * Math.PI) / 8), 6)
      expect(p[1]).toBeCloseTo(3 * Math.sin((i * Math.PI) / 8), 6)
    })
    expect(result.worstChordError).toBeCloseTo(3 * (1 - Math.cos(Math.PI / 16)), 9)
    const fits = tidied(half, [0, 3 * Math.PI], { settings: { lengthMm: 12, chordTolerance: 3 } })
    expect(addedTo(fits)).toEqual([])
    expect(fits.worstChordError).toBeCloseTo(3, 9)
  })

  it('of more than half a circle are as far off as its far side', () => {
    const most: Stroke = { start: [1, 0], segments: [arc([0, -1], [0, 0], 1.5 * Math.PI)] }
    const left = tidied(most, [0, 1.5 * Math.PI], { settings: { lengthMm: 12, chordTolerance: 4 } })
    expect(left.worstChordError).toBeCloseTo(1 + Math.SQRT1_2, 9)
  })

  it('on a cubic are looked at in its middle', () => {
    // c(1/2) = (5, 3): 3/4 of the handles' height of 4.
    const bow: Stroke = { start: [0, 0], segments: [cubic([2, 4], [8, 4], [10, 0])] }
    const track = trackOf(bow)
    const long = { lengthMm: 12, chordTolerance: 5 }
    const result = tidied(bow, [0, track.lengthMm], { settings: long })
    expect(addedTo(result)).toEqual([])
    expect(result.worstChordError).toBeGreaterThan(2.9)
    expect(result.worstChordError).toBeLessThanOrEqual(3.001)
    expect(tidied(bow, [0, track.lengthMm], { settings: { lengthMm: 12 } }).worstChordError).toBeLessThan(0.1)
  })

  it('keep to their limits on lines of all kinds, and tell the worst that is left', () => {
    fc.assert(
      fc.property(fc.oneof(someLine, someCrampedLine), fc.constantFrom(1.5, 2.5), (line, lengthMm) => {
        const settings = { ...SETTINGS, lengthMm }
        const track = layTrack(line, settings.cuspAngle)
        fc.pre(track.lengthMm > settings.minLength)
        const result = tidyNeedles(planNeedles(track, [], settings), [], { track, settings })
        const needles = needlesOf(result)
        const lengths = needles.slice(1).map((p, i) => distance(p, needles[i]!))
        expect(Math.max(...lengths)).toBeLessThanOrEqual(lengthMm * (1 + 1e-8))
        if (lengths.length > 1) expect(Math.min(...lengths)).toBeGreaterThanOrEqual(settings.minLength - 1e-9)
        const fine = flattenStroke(joinStrokes(line.parts.map(({ stroke }) => stroke)), 0.01)
        const off = (p: Point) =>
          Math.min(...needles.slice(1).map((b, i) => distanceToLine(p, needles[i]!, b)))
        const some = fine.filter((_, i) => i % Math.ceil(fine.length / 60) === 0)
        expect(Math.max(...some.map(off))).toBeLessThanOrEqual(result.worstChordError + 0.02)
      }),
      { seed: 3, numRuns: 60 },
    )
  })
})
