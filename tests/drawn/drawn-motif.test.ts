import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawnMotif } from '../../src/drawn/drawn-motif.ts'
import { readPath } from '../../src/drawn/read-path.ts'
import { shapeRepeat } from '../../src/drawn/shape-repeat.ts'
import { twoRepeats } from '../../src/drawn/two-repeats.ts'
import { scaling } from '../../src/geometry/affine.ts'
import { reverseStroke, strokeLength, transformStroke } from '../../src/geometry/stroke.ts'
import type { Motif } from '../../src/motif/contract.ts'
import { inches } from '../../src/units.ts'
import { randomDrawing } from '../support/arbitrary-drawing.ts'
import { assertParams, caseArbitrary, defaultCases, LAWS, leavesEdges } from '../support/motif-laws.ts'
import { retraceLength } from '../support/retrace.ts'

const motifOf = (path: string): Motif =>
  drawnMotif({
    name: 'own',
    shape: shapeRepeat(readPath(path)),
    suits: { min: inches(0.5), max: inches(8) },
  })

/** Halves of different lengths make half a repeat more or less than half as long: that law holds for whole repeats. */
const WHOLE_ONLY = 'repeats: n repeats drawn at once are n times one'

describe('a motif made of any well-formed drawing', () => {
  it.each(Object.entries(LAWS))('%s', (sentence, law) => {
    fc.assert(
      fc.property(
        randomDrawing
          .map(({ path }) => motifOf(path))
          .chain((motif) => fc.tuple(fc.constant(motif), caseArbitrary(motif))),
        ([motif, example]) => {
          if (sentence === WHOLE_ONLY && example.strip.repeats % 1 !== 0) return
          law(motif, example)
        },
      ),
      { seed: 1, numRuns: 60 },
    )
  })

  it('has its defaults within their limits, leaves the seams, and retraces next to nothing', () => {
    fc.assert(
      fc.property(randomDrawing, ({ path }) => {
        const motif = motifOf(path)
        assertParams(motif)
        for (const example of defaultCases(motif, 2)) {
          leavesEdges(motif, example)
          const { stroke } = motif.draw(example.strip, example.values)
          expect(retraceLength(stroke) / strokeLength(stroke)).toBeLessThanOrEqual(0.01)
        }
      }),
      { seed: 2, numRuns: 40 },
    )
  })

  it('is the same whichever way it was drawn, and however large', () => {
    fc.assert(
      fc.property(randomDrawing, fc.double({ min: 0.01, max: 100, noNaN: true }), ({ path }, k) => {
        const drawn = readPath(path)[0]!
        const shape = shapeRepeat([drawn])
        for (const stroke of [reverseStroke(drawn.stroke), transformStroke(drawn.stroke, scaling(k))]) {
          const other = shapeRepeat([{ ...drawn, stroke }])
          expect(other.kind).toBe(shape.kind)
          expect(other.joints).toBe(shape.joints)
          expect(strokeLength(twoRepeats(other))).toBeCloseTo(strokeLength(twoRepeats(shape)), 6)
        }
      }),
      { seed: 3, numRuns: 40 },
    )
  })

  it('is smooth or has corners, and is cut in halves or laid whole, as it was drawn', () => {
    const shapes = fc
      .sample(randomDrawing, { seed: 4, numRuns: 60 })
      .map(({ path }) => shapeRepeat(readPath(path)))
    expect(new Set(shapes.map(({ kind, joints }) => `${kind} ${joints}`))).toEqual(
      new Set(['alternate smooth', 'alternate cusped', 'free smooth', 'free cusped']),
    )
  })
})

describe('a drawing of a known curve', () => {
  // Half a circle on a chord of 2 and 1 high, pi long; laid in a band 10 wide it is ten times as long.
  it('has the length of the curve: half circles', () => {
    const motif = motifOf('M0 10A10 10 0 0 1 20 10')
    const strip = { from: 'inner', to: 'inner', mirrorStart: false, mirrorEnd: false, seed: 1 } as const
    const { stroke } = motif.draw({ ...strip, width: 10, length: 60, repeats: 3 }, { repeat: 20 } as never)
    expect(strokeLength(stroke)).toBeCloseTo(3 * Math.PI * 10, 1)
  })

  // A quarter wave each way, by its arc length: a straight zigzag of steps 3 and height 4 has sides of 5 (3-4-5).
  it('has the length of the curve: a zigzag', () => {
    const motif = motifOf('M0 4L3 0L6 4')
    const strip = { from: 'inner', to: 'outer', mirrorStart: false, mirrorEnd: false, seed: 1 } as const
    const { stroke, touches } = motif.draw({ ...strip, width: 4, length: 15, repeats: 2.5 }, {
      repeat: 6,
    } as never)
    expect(strokeLength(stroke)).toBeCloseTo(25, 9)
    expect(touches.map(({ edge }) => edge)).toEqual(['inner', 'outer', 'inner', 'outer', 'inner', 'outer'])
  })
})
