import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf, layOutPlan } from '../../src/engine-input.ts'
import { PlanError } from '../../src/error.ts'
import { readPlan } from '../../src/plan/read-plan.ts'
import { PLAIN_THREADS } from '../../src/report/plain-threads.ts'
import { chooseThread } from '../../src/report/thread-choice.ts'
import { threadText } from '../../src/report/thread-text.ts'
import { colourDifference, labOf } from '../../src/stitch/thread-colour.ts'

const choose = (file: unknown) => {
  const { plan } = readPlan(JSON.stringify(file), catalogOf(LIBRARY))
  return chooseThread(plan, layOutPlan(plan).quilt)
}
const quilt = (fabric: unknown, more: Record<string, unknown> = {}) => ({
  title: 'Pilot boats',
  centre: { width: 20, height: 20 },
  bands: [{ name: 'hull', width: 2, filler: 'bracket', fabric }],
  ...more,
})
const candidates = [
  { name: 'ink', colour: '#000000' },
  { name: 'chalk', colour: '#ffffff' },
]

describe('the choice of a thread', () => {
  it('puts the thread of the cloth itself first, with no difference', () => {
    const colour = '#3f74a3'
    const { blending } = choose(quilt(colour))
    expect(blending[0]).toMatchObject({ name: 'mid blue', difference: 0, visibility: 'blends' })
  })

  it('weighs the colours of a print by their shares', () => {
    const print = [
      { colour: '#000000', share: 0.25 },
      { colour: '#ffffff', share: 0.75 },
    ]
    const { blending } = choose(quilt(print, { thread: { candidates } }))
    const whole = colourDifference(labOf('#000000'), labOf('#ffffff'))
    const byName = Object.fromEntries(blending.map((v) => [v.name, v.difference]))
    expect(byName.ink).toBeCloseTo(0.75 * whole, 9)
    expect(byName.chalk).toBeCloseTo(0.25 * whole, 9)
  })

  it('takes the plan’s candidates before plain colours', () => {
    expect(
      choose(quilt('red', { thread: { candidates } }))
        .blending.map((v) => v.name)
        .sort(),
    ).toEqual(['chalk', 'ink'])
    expect(choose(quilt('red')).blending).toHaveLength(PLAIN_THREADS.length)
  })

  it('shows in the opposite order of blending, as long as no two are equal', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 0xffffff }), (n) => {
        const { blending, showing } = choose(quilt(`#${n.toString(16).padStart(6, '0')}`))
        const differences = blending.map((v) => v.difference)
        expect(differences).toEqual([...differences].sort((a, b) => a - b))
        if (new Set(differences).size === differences.length)
          expect(showing).toEqual(blending.map((v) => v.name).reverse())
      }),
      { seed: 4, numRuns: 50 },
    )
  })

  it('leaves bands without quilting out, and compares with all if none is quilted', () => {
    const bands = [
      { name: 'deck', width: 2, fabric: 'black' },
      { name: 'hull', width: 2, filler: 'bracket', fabric: 'white' },
    ]
    expect(choose(quilt('red', { bands })).bands.map((b) => b.name)).toEqual(['hull'])
    const bare = bands.map(({ filler: _, ...band }) => band)
    expect(choose(quilt('red', { bands: bare })).bands.map((b) => b.name)).toEqual(['deck', 'hull'])
  })

  it('takes the centre in where it is quilted', () => {
    const centre = { width: 20, height: 20, filler: 'crosshatch', fabric: 'navy' }
    expect(choose(quilt('red', { centre })).bands.map((b) => b.name)).toEqual(['centre', 'hull'])
  })

  it('weighs bands by their area, and the shares add up to one', () => {
    const bands = [
      { name: 'thin', width: 1, filler: 'bracket' },
      { name: 'wide', width: 3, filler: 'scallop' },
    ]
    const shares = choose(quilt('red', { bands })).bands.map((b) => b.share)
    expect(shares[0]).toBeCloseTo((22 ** 2 - 20 ** 2) / (28 ** 2 - 20 ** 2), 9)
    expect(shares[0]! + shares[1]!).toBeCloseTo(1, 12)
  })

  it('is told in words with every thread on every band', () => {
    const text = threadText(choose(quilt('navy')))
    for (const { name } of PLAIN_THREADS) expect(text).toContain(`  ${name} `)
    expect(text).toContain('below 4   blends')
    expect(text).toContain("the plan's thread")
    expect(text).not.toMatch(/NaN|undefined|Infinity/)
  })

  it.each([
    ['an unknown colour', quilt('sea fog'), 'bands[0].fabric'],
    [
      'an unknown thread',
      quilt('red', { thread: { candidates: [{ name: 'x', colour: '#12' }] } }),
      'thread.candidates[0].colour',
    ],
    [
      'shares over 100 %',
      quilt([
        { colour: 'red', share: 0.7 },
        { colour: 'blue', share: 0.4 },
      ]),
      'bands[0].fabric',
    ],
    ['shares of nothing', quilt([{ colour: 'red', share: 0 }]), 'bands[0].fabric'],
  ])('refuses %s with its place', (_, file, at) => {
    const refused = (() => {
      try {
        choose(file)
      } catch (error) {
        return error
      }
      return undefined
    })()
    expect(refused).toBeInstanceOf(PlanError)
    const [problem] = (refused as PlanError).problems
    expect(problem!.at).toBe(at)
    expect(problem!.position).toBeDefined()
  })
})
