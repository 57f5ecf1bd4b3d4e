import { describe, expect, it } from 'vitest'
import bracket from '../../motifs/bracket.ts'
import cable from '../../motifs/cable.ts'
import echoRails from '../../motifs/echo-rails.ts'
import loopLine from '../../motifs/loop-line.ts'
import pearls from '../../motifs/pearls.ts'
import pianoKeys from '../../motifs/piano-keys.ts'
import ribbon from '../../motifs/ribbon.ts'
import sEcho from '../../motifs/s-echo.ts'
import scallop from '../../motifs/scallop.ts'
import squareKey from '../../motifs/square-key.ts'
import wave from '../../motifs/wave.ts'
import { strokeLength } from '../../src/geometry/stroke.ts'
import type { Motif } from '../../src/motif/contract.ts'
import { assertLaw, assertParams, defaultCases, LAWS, leavesEdges } from '../support/motif-laws.ts'

const MOTIFS: Readonly<Record<string, Motif>> = {
  bracket: bracket,
  cable: cable,
  'echo-rails': echoRails,
  'loop-line': loopLine,
  pearls: pearls,
  'piano-keys': pianoKeys,
  ribbon: ribbon,
  's-echo': sEcho,
  scallop: scallop,
  'square-key': squareKey,
  wave: wave,
}

describe.each(Object.entries(MOTIFS))('%s', (_name, motif) => {
  it.each(Object.entries(LAWS))('%s', (_sentence, law) => {
    assertLaw(motif, law)
  })

  it('has defaults within their limits', () => {
    assertParams(motif)
  })

  it('leaves the edges soon after it touches them', () => {
    for (const example of defaultCases(motif, 5)) leavesEdges(motif, example)
  })
})

const ends = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false, seed: 1 } as const

describe('a scallop', () => {
  // Values for an arc of chord c and rise h: R = (c^2 + 4 h^2) / 8 h, L = 4 R atan(2 h / c); computed with mpmath.
  it.each([
    [4, 1, 4.63647609001],
    [6, 0.75, 6.24695590974],
    [3, 0.5, 3.21750554397],
    [2.5, 0.8, 3.1347807585],
    [2, 1, Math.PI],
    [100, 10, 102.645691122],
  ])('on a chord of %d with a rise of %d is %d long', (chord, rise, length) => {
    const strip = { ...ends, length: chord, width: rise, repeats: 1 }
    const { stroke } = scallop.draw(strip, { repeat: chord, crowns: 'outer' })
    expect(strokeLength(stroke)).toBeCloseTo(length, 8)
    expect(stroke.segments.map((s) => s.kind)).toEqual(['arc', 'arc'])
  })
})
