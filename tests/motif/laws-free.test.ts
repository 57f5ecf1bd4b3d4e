import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import clamshell from '../../motifs/clamshell.ts'
import crosshatch from '../../motifs/crosshatch.ts'
import meander from '../../motifs/meander.ts'
import spiralChain from '../../motifs/spiral-chain.ts'
import swirl from '../../motifs/swirl.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import type { Edge, Motif } from '../../src/motif/contract.ts'
import { armOutward } from '../../src/motif/double-spiral.ts'
import { isValidAtMitre, type MitreLaw, neverCrosses, neverCrossesAtMitre } from '../support/free-laws.ts'
import { assertLaw, assertParams, caseArbitrary, LAWS } from '../support/motif-laws.ts'

type Named = readonly (readonly [name: string, motif: Motif])[]

const all: Named = [
  ['swirl', swirl],
  ['spiral chain', spiralChain],
  ['meander', meander],
  ['clamshell', clamshell],
  ['crosshatch', crosshatch],
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

describe.each(all)('%s', (_name, motif) => {
  it('has defaults within its limits', () => assertParams(motif))

  it.each(Object.entries(LAWS))('%s', (_law, law) => assertLaw(motif, law, 40))
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
    ['b = 1, one turn', 1, 0, 1, 21.2562941482],
    ['pitch 1, 3 turns', 1 / (2 * Math.PI), 0, 3, 28.6029878927],
    ['pitch 0.25, 4 turns', 0.25 / (2 * Math.PI), 0, 4, 12.6542543112],
    ['pitch 0.5, r from 0.25 to 1.75', 0.5 / (2 * Math.PI), 0.5, 3.5, 18.9264998279],
  ])('is as long as the formula says: %s', (_case, b, first, last, length) => {
    const arm = { centre: [0, 0] as const, b, turn: 1 as const, zero: 0 }
    const { start, segments } = armOutward(arm, first * 2 * Math.PI, last * 2 * Math.PI)
    expect(strokeLength({ start: start.at, segments }) / length).toBeCloseTo(1, 3)
  })
})
