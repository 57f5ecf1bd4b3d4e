import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { motifFromDrawing, motifNameFor } from '../../src/page/own-motif.ts'
import { DRAWN_NAME } from '../../src/plan/format-parts.ts'

describe('a motif made of a drawing', () => {
  it('has a name that a plan may give it, whatever the file is called', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.nat(12), (file, count) => {
        const taken = new Set<string>()
        for (let i = 0; i <= count; i++) {
          const name = motifNameFor(file, (wanted) => taken.has(wanted))
          expect(name).toMatch(DRAWN_NAME)
          expect(taken.has(name)).toBe(false)
          taken.add(name)
        }
      }),
      { seed: 1, numRuns: 200 },
    )
    expect(motifNameFor('Harbour Wave (old).SVG', () => false)).toBe('harbour-wave-old')
    expect(motifNameFor('2024.svg', () => false)).toBe('drawing')
  })

  it('says where a drawing is wrong, and what to do', () => {
    const two = '<svg>\n<path d="M0 0L9 0"/>\n<path d="M0 5L9 5"/></svg>'
    expect(motifFromDrawing(two)).toEqual({
      problem: expect.stringMatching(/^Line 3, column 1: the drawing has 2 paths.*; join them/),
    })
  })

  it('is drawn under the transforms of its drawing', () => {
    const turned = '<svg><g transform="translate(1 2)"><path d="M0 0H9"/></g></svg>'
    expect(motifFromDrawing(turned)).toEqual({ problem: expect.any(String) })
    const wave = '<svg><g transform="translate(1 2)"><path d="M0 5C3 -5 6 -5 9 5"/></g></svg>'
    expect(motifFromDrawing(wave)).toEqual({ path: 'M1 7C4 -3 7 -3 10 7' })
  })
})
