import { describe, it } from 'vitest'
import swirl from '../../motifs/swirl.ts'
import type { Motif } from '../../src/motif/contract.ts'
import { neverCrosses } from '../support/free-laws.ts'
import { assertLaw, assertParams, LAWS } from '../support/motif-laws.ts'

const motifs: readonly (readonly [name: string, motif: Motif])[] = [['swirl', swirl]]
const simple: readonly (readonly [name: string, motif: Motif])[] = [['swirl', swirl]]

describe.each(motifs)('%s', (_name, motif) => {
  it('has defaults within its limits', () => assertParams(motif))

  it.each(Object.entries(LAWS))('%s', (_law, law) => assertLaw(motif, law, 40))
})

describe.each(simple)('%s', (_name, motif) => {
  it('never crosses itself', () => assertLaw(motif, neverCrosses, 60))
})
