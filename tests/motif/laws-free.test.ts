import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import clamshell from '../../motifs/clamshell.ts'
import crosshatch from '../../motifs/crosshatch.ts'
import feather from '../../motifs/feather.ts'
import leafVine from '../../motifs/leaf-vine.ts'
import meander from '../../motifs/meander.ts'
import spiralChain from '../../motifs/spiral-chain.ts'
import swirl from '../../motifs/swirl.ts'
import { translation } from '../../src/geometry/affine.ts'
import { line, type Segment } from '../../src/geometry/segment.ts'
import { reverseStroke, strokeLength, transformStroke } from '../../src/geometry/stroke.ts'
import type { Drawn, Edge, Motif, Strip } from '../../src/motif/contract.ts'
import { archimedeanSpiral } from '../../src/motif/double-spiral.ts'
import {
  isCrossing,
  isValidAtMitre,
  type MitreLaw,
  neverCrosses,
  neverCrossesAtMitre,
  retracesAtMost,
} from '../support/free-laws.ts'
import { assertLaw, assertParams, caseArbitrary, LAWS } from '../support/motif-laws.ts'

type Named = readonly (readonly [name: string, motif: Motif])[]

const all: Named = [
  ['swirl', swirl],
  ['spiral chain', spiralChain],
  ['meander', meander],
  ['clamshell', clamshell],
  ['crosshatch', crosshatch],
  ['feather', feather],
  ['leaf vine', leafVine],
]
const simple: Named = [
  ['swirl', swirl],
  ['spiral chain', spiralChain],
  ['meander', meander],
]
const mitred: Named = [
  ['swirl', swirl],
  ['spiral chain', spiralChain],
]

/** Motifs whose leaves spring from a common stem and lie close to it: they may retrace 8 percent. */
const grown: ReadonlySet<Motif> = new Set<Motif>([feather, leafVine])

describe.each(all)('%s', (_name, motif) => {
  it('has defaults within its limits', () => assertParams(motif))

  it.each(Object.entries(LAWS))('%s', (name, law) => {
    const isLoose = name.startsWith('retraces') && grown.has(motif)
    assertLaw(motif, isLoose ? retracesAtMost(0.08) : law, 40)
  })
})

describe.each(simple)('%s', (_name, motif) => {
  it('never crosses itself', () => assertLaw(motif, neverCrosses, 60))
})

/** Runs a law over strips that end at a mitre of 45 degrees or one a little off it. */
function assertMitreLaw(motif: Motif, law: MitreLaw): void {
  const edge = fc.constantFrom<Edge>('inner', 'outer')
  const skew = fc.constantFrom(0.8, 1, 1, 1.2)
  fc.assert(
    fc.property(caseArbitrary(motif), skew, edge, ({ strip, values }, skewness, to) => {
      law(motif, { ...strip, to, skew: skewness, mirrorEnd: true }, values)
    }),
    { seed: 1, numRuns: 60 },
  )
}

describe.each(mitred)('%s', (_name, motif) => {
  it('draws to a mitre from corner to corner and stays before it', () =>
    assertMitreLaw(motif, isValidAtMitre))

  it('never crosses itself on the way to a mitre', () => assertMitreLaw(motif, neverCrossesAtMitre))
})

describe('the arm of a spiral', () => {
  // L = (b/2) (theta sqrt(1 + theta^2) + asinh theta), Archimedes' spiral; lengths computed from it with 30 digits.
  it.each([
    ['b = 1, one turn', 2 * Math.PI, 0, 1, 21.2562941482],
    ['pitch 1, 3 turns', 1, 0, 3, 28.6029878927],
    ['pitch 0.25, 4 turns', 0.25, 0, 4, 12.6542543112],
    ['pitch 0.5, r from 0.25 to 1.75', 0.5, 0.5, 3.5, 18.9264998279],
  ])('is as long as the formula says: %s', (_case, pitch, first, last, length) => {
    // A thousand times as large: the arm is drawn for thread, and its steps for millimetres.
    const k = 1000
    const arm = archimedeanSpiral([0, 0], {
      outer: k * last * pitch,
      inner: k * first * pitch,
      pitch: k * pitch,
    })
    expect(strokeLength(arm) / k / length).toBeCloseTo(1, 3)
  })
})

describe('the laws over motifs that end by themselves', () => {
  /** The swirl, with what it draws spoilt. */
  const spoilt = (spoil: (drawn: Drawn, strip: Strip) => Drawn): Motif => ({
    ...swirl,
    draw: (strip, values) => spoil(swirl.draw(strip, values as never), strip),
    drawToMitre: (strip, values) => spoil(swirl.drawToMitre!(strip, values as never), strip),
  })
  const withSegments = (drawn: Drawn, segments: readonly Segment[]): Drawn => ({
    stroke: { start: drawn.stroke.start, segments },
    touches: [drawn.touches[0]!, { edge: drawn.touches.at(-1)!.edge, after: segments.length }],
  })
  const shifted = ({ stroke, touches }: Drawn, by: number): Drawn => ({
    stroke: transformStroke(stroke, translation(by, 0)),
    touches,
  })
  const cornered = (drawn: Drawn): Drawn => {
    const [first, ...rest] = drawn.stroke.segments
    return withSegments(drawn, [line(first!.to), ...rest])
  }
  /** Runs to the end line and back, near the start: across everything on its way. */
  const darted = (drawn: Drawn, { length, width }: Strip): Drawn =>
    withSegments(drawn, [line([length - 1, width / 2]), line([1, width / 2]), ...drawn.stroke.segments])
  const doubled = (drawn: Drawn): Drawn => {
    const back = reverseStroke(drawn.stroke)
    return withSegments(drawn, [...drawn.stroke.segments, ...back.segments, ...drawn.stroke.segments])
  }
  const valid = LAWS['starts, ends, touches and joins as the contract says and stays inside its strip']!

  it.each<[string, Motif, (motif: Motif) => void, RegExp]>([
    ['starts beside its corner', spoilt((d) => shifted(d, 1)), (m) => assertLaw(m, valid, 5), /starts at/],
    ['has a corner', spoilt(cornered), (m) => assertLaw(m, valid, 5), /turns by/],
    ['crosses itself', spoilt(darted), (m) => assertLaw(m, neverCrosses, 5), /crosses itself/],
    ['retraces itself', spoilt(doubled), (m) => assertLaw(m, retracesAtMost(0.08), 5), /% lies on/],
    [
      'starts beside its corner',
      spoilt((d) => shifted(d, 1)),
      (m) => assertMitreLaw(m, isValidAtMitre),
      /starts at/,
    ],
    ['has a corner before a mitre', spoilt(cornered), (m) => assertMitreLaw(m, isValidAtMitre), /turns by/],
    [
      'crosses itself before a mitre',
      spoilt(darted),
      (m) => assertMitreLaw(m, neverCrossesAtMitre),
      /crosses itself/,
    ],
    [
      'goes beyond the mitre',
      {
        ...swirl,
        drawToMitre: (strip, values) =>
          swirl.draw(
            { ...strip, length: strip.length + strip.skew * strip.width, to: strip.to },
            values as never,
          ),
      },
      (m) => assertMitreLaw(m, isValidAtMitre),
      /ends at|beyond the mitre/,
    ],
    ['draws to no mitre', meander, (m) => assertMitreLaw(m, isValidAtMitre), /no mitre/],
  ])('refuse one that %s', (_name, motif, run, message) => {
    expect(() => run(motif)).toThrow(
      expect.objectContaining({
        cause: expect.objectContaining({ message: expect.stringMatching(message) }),
      }),
    )
  })

  it('find a crossing of two chords, also where they only touch, and none of chords apart', () => {
    const chord = (...n: number[]) =>
      [
        [n[0]!, n[1]!],
        [n[2]!, n[3]!],
      ] as const
    expect(isCrossing(chord(0, 0, 2, 2), chord(0, 2, 2, 0))).toBe(true)
    expect(isCrossing(chord(0, 0, 2, 0), chord(1, 0, 1, 3))).toBe(true)
    expect(isCrossing(chord(0, 0, 2, 0), chord(1, 0, 3, 0))).toBe(true)
    expect(isCrossing(chord(0, 0, 2, 0), chord(3, 0, 4, 0))).toBe(false)
    expect(isCrossing(chord(0, 0, 2, 0), chord(0, 1, 2, 1))).toBe(false)
  })
})
