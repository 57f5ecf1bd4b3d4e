import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PlanError } from '../../src/error.ts'
import {
  colourDifference,
  type Lab,
  labOf,
  rankThreads,
  VISIBILITY_SCALE,
  visibilityOf,
} from '../../src/stitch/thread-colour.ts'
import { refusalsOf } from '../support/refusals.ts'

/** Rows of L1, a1, b1, L2, a2, b2, difference: Sharma, Wu and Dalal 2005, see the file's head. */
const pairs = readFileSync(new URL('../data/ciede2000.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((row) => /^[\d-]/.test(row))
  .map((row) => row.split(',').map(Number))
const lab = ([l, a, b]: readonly number[]): Lab => ({ l: l!, a: a!, b: b! })
const band = (name: string, ...colours: Lab[]) => ({
  name,
  weight: 1,
  fabrics: colours.map((colour) => ({ colour, share: 1 })),
})

describe('colour difference', () => {
  it('is that of all 34 published pairs, through the code that ranks', () => {
    expect(pairs).toHaveLength(34)
    for (const row of pairs) {
      const fabric = band('only', lab(row.slice(3, 6)))
      const { blending } = rankThreads([{ name: 'thread', colour: lab(row) }], [fabric])
      expect(Math.abs(blending[0]!.difference - row[6]!)).toBeLessThan(5e-5 + 1e-9)
      expect(colourDifference(lab(row.slice(3, 6)), lab(row))).toBeCloseTo(blending[0]!.difference, 9)
    }
  })

  it('of a CSS colour starts from D65 white and black', () => {
    // CIE 15: white is L* = 100, a* = b* = 0; black L* = 0.
    const white = labOf('#ffffff')
    expect([white.l, white.a, white.b].map((v) => Math.round(v * 100) / 100 + 0)).toEqual([100, 0, 0])
    expect(labOf('black').l).toBe(0)
    expect(colourDifference(white, labOf('black'))).toBeCloseTo(100, 3)
    expect(() => labOf('puce-ish')).toThrow(PlanError)
  })
})

describe('ranking threads', () => {
  const colour = fc.record({
    l: fc.double({ min: 0, max: 100, noNaN: true }),
    a: fc.double({ min: -80, max: 80, noNaN: true }),
    b: fc.double({ min: -80, max: 80, noNaN: true }),
  })

  it('orders for blending and for showing, a thread of the fabric’s own colour first and last', () => {
    fc.assert(
      fc.property(fc.array(colour, { minLength: 1, maxLength: 8 }), colour, (threads, fabric) => {
        const named = [...threads, fabric].map((c, i) => ({ name: `${i}`, colour: c }))
        const { blending, showing } = rankThreads(named, [band('only', fabric)])
        expect(blending[0]!.difference).toBe(0)
        expect(showing.at(-1)!.difference).toBe(0)
        const differences = blending.map((c) => c.difference)
        expect(differences).toEqual([...differences].sort((a, b) => a - b))
        expect(showing.map((c) => c.difference)).toEqual([...differences].reverse())
      }),
      { seed: 8, numRuns: 100 },
    )
  })

  it('weighs fabrics by their share and bands by their weight', () => {
    const [navy, cream] = [labOf('#1f2d4d'), labOf('#f3e9d2')]
    const mixed = {
      name: 'rope',
      weight: 3,
      fabrics: [
        { colour: navy, share: 1 },
        { colour: cream, share: 4 },
      ],
    }
    const plain = { name: 'sand', weight: 1, fabrics: [{ colour: cream, share: 7 }] }
    const { blending } = rankThreads(
      [
        { name: 'navy', colour: navy },
        { name: 'cream', colour: cream },
      ],
      [mixed, plain],
    )
    const far = colourDifference(navy, cream)
    expect(blending.map((c) => c.name)).toEqual(['cream', 'navy'])
    expect(blending[0]!.difference).toBeCloseTo(0.75 * 0.2 * far, 9)
    expect(blending[1]!.difference).toBeCloseTo(0.75 * 0.8 * far + 0.25 * far, 9)
    expect(blending[1]!.strongest).toMatchObject({ band: 'sand', visibility: 'shows' })
  })

  it('finds that cream and light grey blend with a lot', () => {
    // Common practice, no source.
    const fabrics = ['#e8dcc0', '#cfd8dc', '#d9c7a0', '#b9c4b0', '#e6c9c0'].map((c, i) =>
      band(`${i}`, labOf(c)),
    )
    const threads = ['#efe6d2', '#c8c8c4', '#101010', '#c01020', '#103080'].map((c) => ({
      name: c,
      colour: labOf(c),
    }))
    const names = rankThreads(threads, fabrics).blending.map((c) => c.name)
    expect(names.slice(0, 2).sort()).toEqual(['#c8c8c4', '#efe6d2'])
  })

  it('names what it sees on a scale without holes', () => {
    expect(VISIBILITY_SCALE.map(({ below }) => visibilityOf(below - 1e-9))).toEqual(
      VISIBILITY_SCALE.map(({ visibility }) => visibility),
    )
    expect(visibilityOf(0)).toBe('blends')
    expect(visibilityOf(100)).toBe('shows')
  })

  it('is refused where there is nothing to compare or a share is none', () => {
    const thread = { name: 't', colour: labOf('red') }
    const nothing = 'thread/nothing-to-compare : there is no thread or no band to compare'
    expect(refusalsOf(() => rankThreads([], [band('b', labOf('red'))]))).toEqual([nothing])
    expect(refusalsOf(() => rankThreads([thread], []))).toEqual([nothing])
    expect(refusalsOf(() => rankThreads([thread], [band('bare')]))).toEqual([
      'thread/nothing-to-compare : band "bare" has no fabric',
    ])
    const none = { name: 'b', weight: 1, fabrics: [{ colour: labOf('red'), share: 0 }] }
    expect(refusalsOf(() => rankThreads([thread], [none, { ...none, weight: -1 }]))).toEqual([
      expect.stringMatching(/^colour\/share b\.fabrics\[0\]: 0 \(a share\) is not allowed/),
      expect.stringMatching(/^colour\/share b\.weight: -1 \(a share\) is not allowed/),
      expect.stringMatching(/^colour\/share b\.fabrics\[0\]: 0 /),
    ])
    expect(refusalsOf(() => labOf('seaweed'))).toEqual([
      'colour/unknown : "seaweed" is not a colour; write one such as "#d9c7a0" or "tan"',
    ])
  })

  it('tells the first of the bands on which a thread shows most, and takes a step of the scale for the next', () => {
    const thread = { name: 't', colour: labOf('black') }
    const [dark, light] = [labOf('#222222'), labOf('#eeeeee')]
    const named = (name: string, colour: typeof dark) => ({ ...band(name, colour), name })
    const strongest = (...bands: ReturnType<typeof named>[]) =>
      rankThreads([thread], bands).blending[0]!.strongest.band
    expect(strongest(named('a', light), named('b', dark))).toBe('a')
    expect(strongest(named('a', dark), named('b', light), named('c', light))).toBe('b')
    expect(VISIBILITY_SCALE.slice(0, 3).map(({ below }) => visibilityOf(below))).toEqual([
      'barely shows',
      'shows softly',
      'shows',
    ])
  })
})
