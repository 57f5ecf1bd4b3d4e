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
import { distance } from '../../src/geometry/point.ts'
import { flattenStroke, strokeLength } from '../../src/geometry/stroke.ts'
import type { Motif } from '../../src/motif/contract.ts'
import { assertLaw, assertParams, defaultCases, LAWS, leavesEdges, turnsWell } from '../support/motif-laws.ts'

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
    assertLaw(motif, law, 30)
  })

  it('has defaults within their limits', () => {
    assertParams(motif)
  })

  it('leaves the edges soon after it touches them', () => {
    for (const example of defaultCases(motif, 5)) leavesEdges(motif, example)
  })

  it('turns a mitred corner without retracing', () => {
    for (const example of defaultCases(motif, 3)) turnsWell(motif, example)
  })
})

const ends = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false, seed: 1 } as const

describe('a scallop', () => {
  // Values for an arc of chord c and rise h: R = (c^2 + 4 h^2) / 8 h, L = 4 R atan(2 h / c) (Euclid III.35).
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

describe('a wave', () => {
  // L = (2 lambda / pi) sqrt(1 + kappa^2) E(m), kappa = 2 pi A / lambda, m = kappa^2 / (1 + kappa^2) (NIST DLMF 19.2(ii), E(m)).
  it.each([
    [1, 2 * Math.PI, 7.64039557806],
    [1, 4, 5.85478188965],
    [0.75, 3, 4.39108641724],
    [2, 5, 9.75949390036],
    [0.25, 4, 4.15001801114],
  ])('of amplitude %d and period %d is %d long', (amplitude, period, length) => {
    const strip = { ...ends, length: period, width: 2 * amplitude, repeats: 1 }
    const drawn = strokeLength(wave.draw(strip, { repeat: period }).stroke)
    expect(Math.abs(drawn / length - 1)).toBeLessThan(1e-4)
  })

  it('strays from the sine by less than 0.02 mm in a 4 in band', () => {
    const [width, period] = [101.6, 254]
    const { stroke } = wave.draw({ ...ends, length: period, width, repeats: 1 }, { repeat: period })
    for (const [u, v] of flattenStroke(stroke, 0.001)) {
      expect(Math.abs(v - (width / 2) * (1 - Math.cos((2 * Math.PI * u) / period)))).toBeLessThan(0.02)
    }
  })
})

describe('a cable', () => {
  it('is three sines long', () => {
    // As for a wave of amplitude 1 and period 4; from inner to inner it has a third of a period more than repeats.
    const strip = { ...ends, length: 16, width: 2, repeats: 4 }
    const scaled = { ...strip, length: (4 + 1 / 3) * 4 }
    const { stroke } = cable.draw(scaled, { repeat: 4 })
    // A third of a period has not a third of its length, but the three strands make one whole period of thirds.
    expect(strokeLength(stroke)).toBeCloseTo(13 * 5.85478188965, 2)
  })
})

describe('pearls', () => {
  it('are whole circles on half circles: 3 pi r each, beside the leads', () => {
    const strip = { ...ends, to: 'outer', length: 80, width: 25, repeats: 4 } as const
    const arcs = pearls.draw(strip, { size: 0.8 }).stroke.segments.slice(1, -1)
    const radius = (80 - 2 * 0.13 * 20) / 8
    const sweeps = arcs.reduce((sum, s) => sum + (s.kind === 'arc' ? Math.abs(s.sweep) : 0), 0)
    expect(sweeps).toBeCloseTo(4 * 4 * Math.PI, 9)
    const length = strokeLength({ start: [0.13 * 20, 12.5], segments: arcs })
    expect(length).toBeCloseTo(4 * 3 * Math.PI * radius, 6)
  })
})

describe('an S-echo', () => {
  it('keeps its echoes more than half a spacing apart where they die down towards a mirror line', () => {
    for (const width of [40, 75, 150]) {
      const [spacing, count] = [10, 21]
      const strip = {
        ...ends,
        to: 'outer',
        length: spacing * count,
        width,
        repeats: count / 2,
        mirrorStart: true,
      } as const
      const { stroke, touches } = sEcho.draw({ ...strip, mirrorEnd: true }, { spacing, sweep: 0.085 })
      const strands = touches.slice(1).map(({ after }, i) => {
        const from = touches[i]!.after
        const start = from === 0 ? stroke.start : stroke.segments[from - 1]!.to
        return flattenStroke({ start, segments: stroke.segments.slice(from, after) }, 0.01)
      })
      const inside = strands.map((points) => points.filter(([, v]) => v > spacing && v < width - spacing))
      for (let i = 1; i < inside.length; i++) {
        const gap = Math.min(...inside[i]!.map((p) => Math.min(...inside[i - 1]!.map((q) => distance(p, q)))))
        expect(gap).toBeGreaterThan(0.5 * spacing)
      }
    }
  })
})
