import { describe, expect, it } from 'vitest'
import { Measure } from '../../src/choose/measure.ts'
import { pickMixes } from '../../src/choose/pick-mixes.ts'
import type { Ground, Slot } from '../../src/choose/slot.ts'
import { noteUnfed, unfedBands } from '../../src/choose/unfed.ts'
import { mixesOf, type Scales } from '../../src/choose/weigh.ts'
import { option, planWith, slot } from './by-hand.ts'

const ground = (slots: readonly Slot[]): Ground => ({ at: 'reef', band: 0, areaMm2: 1000, slots })
const scales = (more: object = {}): Scales => ({
  plan: planWith(more),
  aims: new Map([[0, 46]]),
  unfed: new Map(),
})

describe('the ways to fill a ground', () => {
  it('are one for each option of its largest slot, the others to match', () => {
    const large = slot([option('wave', 20, { perArea: 0.05 }), option('wave', 20, { perArea: 0.2 })], {
      areaMm2: 700,
    })
    const small = slot([option('ribbon', 20, { perArea: 0.05 }), option('ribbon', 20, { perArea: 0.2 })], {
      areaMm2: 300,
      kind: 'side',
      part: 'left',
    })
    const mixes = mixesOf(ground([small, large]), scales())
    expect(mixes.map(({ options }) => options.map((o) => o!.measured.perArea))).toEqual([
      [0.05, 0.05],
      [0.2, 0.2],
    ])
    expect(mixes[0]!.perArea).toBeCloseTo(0.05, 12)
    expect(mixes[0]!.names).toEqual(new Set(['wave', 'ribbon']))
  })

  it('leave a slot bare that nothing suits, and count its area', () => {
    const bare = slot([], { areaMm2: 500, kind: 'patch', part: 'square', isAuto: true })
    const [mix] = mixesOf(ground([bare, slot([option('wave', 20)], { areaMm2: 500 })]), scales())
    expect(mix!.options[0]).toBeUndefined()
    expect(mix!.perArea).toBeCloseTo(0.05, 12)
    expect([...mix!.names]).toEqual(['wave'])
  })

  it('are one, of nothing, where nothing suits at all', () => {
    const mixes = mixesOf(ground([slot([], { isAuto: true })]), scales())
    expect(mixes).toHaveLength(1)
    expect(mixes[0]).toMatchObject({ options: [], perArea: 0 })
  })

  it('cost far more if a walking foot cannot stitch them, more yet if they are chosen than if they are given', () => {
    const costOf = (foot: boolean, isAuto: boolean, machine: object) =>
      mixesOf(ground([slot([option('wave', 20, { foot })], { isAuto })]), scales({ machine }))[0]!.cost
    const walking = { foot: 'walking' }
    for (const isAuto of [false, true])
      expect(costOf(false, isAuto, {})).toBeCloseTo(costOf(true, isAuto, walking), 9)
    const given = costOf(false, false, walking) - costOf(true, false, walking)
    const chosen = costOf(false, true, walking) - costOf(true, true, walking)
    expect(given).toBeGreaterThan(10)
    expect(chosen).toBeGreaterThan(10 * given)
  })

  it('cost more the further they are past the gap that is aimed at, unless the band is narrower than that', () => {
    const costOf = (gapMm: number, widths = [90]) =>
      mixesOf(ground([slot([option('wave', gapMm)], { widths })]), scales())[0]!.cost
    expect(costOf(46)).toBe(costOf(10))
    expect(costOf(47)).toBeGreaterThan(costOf(46) + 10)
    expect(costOf(90)).toBeGreaterThan(costOf(47) + 10)
    expect(costOf(90, [40])).toBe(costOf(10, [40]))
  })
})

it('nothing is picked where there is nothing to fill, and bare grounds have no say in their neighbours', () => {
  expect(pickMixes([], scales())).toEqual([])
  const [bare] = pickMixes([ground([])], scales())
  expect(bare).toMatchObject({ options: [], perArea: 0 })
})

describe('what a walking foot cannot stitch', () => {
  it('is noted for each filler of a band, once and for larger values as well', () => {
    const sides = [slot([option('wave', 20)]), slot([]), slot([option('ribbon', 20)])]
    const picked = {
      grounds: [ground(sides)],
      mixes: [
        { options: sides.map(({ options }) => options[0]), perArea: 0.1, cost: 0, names: new Set<string>() },
      ],
    }
    const once = noteUnfed(new Map(), [0], picked)
    expect(once).toEqual(
      new Map([
        [
          0,
          new Map([
            ['wave', 2.5],
            ['ribbon', 2.5],
          ]),
        ],
      ]),
    )
    expect(noteUnfed(once, [0], picked)).toEqual(once)
    expect(noteUnfed(once, [3], picked)).toEqual(once)
  })

  it('is nothing where nothing is stitched', () => {
    expect(unfedBands({ pieces: [], stretches: [{ band: 0, pieces: [0, 0] }] } as never)).toEqual([])
    const bare = new Measure({
      strokes: [],
      outline: [
        [0, 0],
        [9, 0],
        [9, 9],
        [0, 9],
      ],
    })
    expect(bare).toMatchObject({ suitsWalkingFoot: true, perArea: 0 })
    expect(bare.gapMm).toBeCloseTo(9, 0)
  })
})
