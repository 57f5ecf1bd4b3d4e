import { describe, expect, it } from 'vitest'
import type { Telling } from '../../src/choose/choice.ts'
import type { Ground, Slot } from '../../src/choose/slot.ts'
import type { Mix } from '../../src/choose/weigh.ts'
import { whyOpen, whyUneven } from '../../src/choose/why-open.ts'
import { option, planWith, slot } from './by-hand.ts'

interface Told {
  readonly slots: readonly Slot[]
  /** Which option of each slot was taken; the first if left out. */
  readonly taken?: readonly (number | undefined)[]
  readonly perArea?: number
}

/** Choices made for grounds, by band from -1 (the centre) on; undefined: not stitched at all. */
function tell(told: readonly (Told | undefined)[], plan = planWith()): Telling {
  const listed = told.flatMap((of, i) => (of ? [{ ...of, band: i - 1 }] : []))
  return {
    plan,
    grounds: listed.map(
      ({ slots, band }): Ground => ({
        at: band < 0 ? 'centre' : plan.bands[band]!.name,
        band,
        areaMm2: 1000,
        slots,
      }),
    ),
    mixes: listed.map(
      ({ slots, taken, perArea = 0.1 }): Mix => ({
        options: slots.map(({ options }, k) => (taken ? options[taken[k] ?? -1] : options[0])),
        perArea,
        cost: 0,
        names: new Set(),
      }),
    ),
    aims: new Map(),
    unfed: new Map(),
  }
}

const only = (told: Told): readonly (Told | undefined)[] => [undefined, told]
const ends = (gapMm: number) => [option('scallop', gapMm), option('scallop', gapMm + 9)]

describe('why a gap is not smaller', () => {
  it('names the centre that the plan leaves unquilted', () => {
    expect(whyOpen(tell([undefined]), [-1])).toBe('the plan leaves the centre unquilted')
  })

  it('names a band that the plan leaves unquilted, or that nothing suits', () => {
    expect(whyOpen(tell(only({ slots: [] })), [0])).toBe('the plan leaves "reef" unquilted')
    const none = only({ slots: [slot([], { isAuto: true })] })
    expect(whyOpen(tell(none), [0])).toBe('no filler suits "reef"')
  })

  it('names each band that the gap is due to, and no other', () => {
    const told = [undefined, { slots: [slot(ends(60))] }, { slots: [slot(ends(20))] }]
    expect(whyOpen(tell(told), [0, 1])).toBe('the scallop of "reef" leaves 60 mm at its closest')
    const both = [undefined, { slots: [slot(ends(60))] }, { slots: [slot(ends(70))] }]
    expect(whyOpen(tell(both), [0, 1])).toBe(
      'the scallop of "reef" leaves 60 mm at its closest; the scallop of "shoal" leaves 70 mm at its closest',
    )
  })

  it('tells of the part that is widest open, by its name', () => {
    const slots = [
      slot(ends(60), { kind: 'side', part: 'left' }),
      slot([option('wave', 80), option('wave', 90)], { kind: 'side', part: 'top' }),
      slot(ends(55)),
    ]
    expect(whyOpen(tell(only({ slots })), [0])).toBe('the wave of "reef" (top) leaves 80 mm at its closest')
    expect(whyOpen(tell(only({ slots: [...slots].reverse() })), [0])).toMatch(/the wave of "reef" \(top\)/)
  })

  it('says of a spacing that keeps the limit by itself what else opens the gap', () => {
    expect(whyOpen(tell(only({ slots: [slot(ends(40))] })), [0])).toBe(
      'the scallop of "reef" leaves 40 mm at its closest on an even strip; corners, uneven sides or a repeat that is stretched to fit leave more',
    )
  })

  it('says that a filler has no spacing to choose, was given its values, or keeps its own', () => {
    const told = (given: string[]) => only({ slots: [slot([option('ribbon', 60, { given })])] })
    expect(whyOpen(tell(told([])), [0])).toBe(
      'the ribbon of "reef" has no spacing to choose; it leaves 60 mm',
    )
    expect(whyOpen(tell(told(['spacing'])), [0])).toBe('the plan gives the ribbon of "reef" its values')
    const own = tell(told([]), planWith({ spacing: 'own' }))
    expect(whyOpen(own, [0])).toBe(
      '"reef" keeps the ribbon\'s own spacing, since the plan does not say spacing: auto',
    )
  })

  it('names the closest of the fillers that might have been chosen', () => {
    const options = [option('wave', 75), option('feather', 58), option('meander', 66)]
    const told = only({ slots: [slot(options, { isAuto: true })] })
    expect(whyOpen(tell(told), [0])).toBe(
      'of the fillers that suit "reef" the closest, feather, leaves 58 mm',
    )
  })

  it('weighs only what a walking foot can stitch, if that is anything', () => {
    const walking = planWith({ machine: { foot: 'walking' } })
    const options = (foot: boolean) => [option('wave', 75, { foot }), option('feather', 58, { foot: false })]
    const told = (foot: boolean) => only({ slots: [slot(options(foot), { isAuto: true })] })
    expect(whyOpen(tell(told(true), walking), [0])).toBe(
      'of the fillers that suit "reef" and a walking foot the closest, wave, leaves 75 mm',
    )
    expect(whyOpen(tell(told(false), walking), [0])).toContain('feather, leaves 58 mm')
  })

  it('counts a filler out that was found too tight for a walking foot in the quilt itself', () => {
    const walking = planWith({ machine: { foot: 'walking' } })
    const told = only({ slots: [slot([option('wave', 75), option('feather', 58)], { isAuto: true })] })
    const telling = { ...tell(told, walking), unfed: new Map([[0, new Map([['feather', 2.5]])]]) }
    expect(whyOpen(telling, [0])).toContain('the closest, wave, leaves 75 mm')
  })

  it('speaks of the centre, and of the whole quilt under one filler, by these names', () => {
    const centre: Told = { slots: [slot(ends(60), { kind: 'centre' })] }
    expect(whyOpen(tell([centre]), [-1])).toBe('the scallop of the centre leaves 60 mm at its closest')
    const over = planWith({ allOver: 'meander', bands: [{ name: 'reef', width: 90 }] })
    expect(whyOpen(tell([centre], over), [-1])).toBe(
      'the scallop of the whole quilt leaves 60 mm at its closest',
    )
  })
})

describe('why two neighbours are not more even', () => {
  const dense = (...perArea: number[]): Told => ({
    slots: [slot(perArea.map((of) => option('wave', 20, { perArea: of })))],
    perArea: perArea[0]!,
  })

  it('is their own spacings where the plan does not ask for auto', () => {
    expect(whyUneven(tell([undefined, dense(0.4), dense(0.1)], planWith({ spacing: 'own' })), [0, 1])).toBe(
      'fillers keep their own spacings, since the plan does not say spacing: auto',
    )
  })

  it('is the limit and other neighbours where their fillers could do better', () => {
    expect(whyUneven(tell([undefined, dense(0.4, 0.3), dense(0.05, 0.075)]), [0, 1])).toBe(
      "the batting's limit and their other neighbours leave no better choice",
    )
  })

  it('is their fillers where these allow no better', () => {
    expect(whyUneven(tell([undefined, dense(0.4), dense(0.1)]), [0, 1])).toBe(
      'their fillers allow no ratio below 4.0',
    )
    expect(whyUneven(tell([undefined, dense(0.1), dense(0.5)]), [1, 0])).toBe(
      'their fillers allow no ratio below 5.0',
    )
  })

  it('is a walking foot as well where the plan has one', () => {
    const walking = planWith({ machine: { foot: 'walking' } })
    expect(whyUneven(tell([undefined, dense(0.4, 0.1), dense(0.1)], walking), [0, 1])).toBe(
      "a walking foot and the batting's limit leave no better choice",
    )
  })

  it('weighs slots by their area, and counts one that nothing fills as bare', () => {
    const half = { ...dense(0.2), slots: [slot([option('wave', 20, { perArea: 0.4 })], { areaMm2: 500 })] }
    expect(whyUneven(tell([undefined, half, dense(0.1)]), [0, 1])).toBe(
      'their fillers allow no ratio below 2.0',
    )
    const bare = { ...half, slots: [...half.slots, slot([], { areaMm2: 500 })] }
    expect(whyUneven(tell([undefined, bare, dense(0.1)]), [0, 1])).toBe(
      'their fillers allow no ratio below 2.0',
    )
    const unstitched: Told = { slots: [], perArea: 0.05 }
    expect(whyUneven(tell([undefined, unstitched, dense(0.1)]), [0, 1])).toBe(
      'their fillers allow no ratio below 2.0',
    )
  })
})
