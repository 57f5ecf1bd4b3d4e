import { describe, expect, it } from 'vitest'
import { type Aims, closerAims } from '../../src/choose/closer-aims.ts'
import type { Ground } from '../../src/choose/slot.ts'
import type { Mix } from '../../src/choose/weigh.ts'

const ground = (band: number): Ground => ({ at: `band ${band}`, band, areaMm2: 1, slots: [] })
/** A mix whose sample leaves a gap, mm. */
const mixOf = (gapMm: number): Mix => ({
  options: [
    {
      filler: { name: 'wave', values: {}, given: [] },
      title: 'wave',
      open: undefined,
      ofUsual: 1,
      suits: undefined,
      measured: { perArea: 0.1, gapMm, suitsWalkingFoot: true },
    },
  ],
  perArea: 0.1,
  cost: 0,
  names: new Set(['wave']),
})
const START: Aims = { aims: new Map([[0, 20]]), trials: new Map() }

/** The aims of band 0 round by round, with its gap over the limit as it depends on the aim. */
function roundsOf(timesAt: (aim: number) => number, count: number): number[] {
  const aims: number[] = []
  let now = START
  for (let round = 0; round < count; round++) {
    const aim = now.aims.get(0)!
    aims.push(aim)
    const gaps = [{ bands: [0], times: timesAt(aim) }].filter(({ times }) => times > 1)
    now = closerAims(now, gaps, { grounds: [ground(0)], mixes: [mixOf(aim)] })
  }
  return aims
}

describe('the aim for a gap', () => {
  it('becomes smaller until the gap is within the limit, and then stays', () => {
    const aims = roundsOf((aim) => aim / 12, 10)
    for (let i = 1; i < 4; i++) expect(aims[i]!).toBeLessThanOrEqual(aims[i - 1]!)
    expect(aims.at(-1)!).toBeLessThanOrEqual(12)
    expect(aims.at(-1)).toBe(aims.at(-2))
    expect(aims.at(-1)!).toBeGreaterThan(12 * 0.7 * 0.94)
  })

  it('goes back to where the gap was smallest when going closer helps no more', () => {
    const aims = roundsOf((aim) => Math.max(1.4, aim / 12), 12)
    // 20 / 12 is more than 1.4, what comes next is not.
    expect(Math.min(...aims)).toBeLessThan(aims.at(-1)!)
    expect(aims.at(-1)).toBe(aims[1])
    expect(aims.at(-1)).toBe(aims.at(-2))
  })

  it('of a band that no gap reaches into is left alone', () => {
    const { aims } = closerAims(
      { aims: new Map([...START.aims, [1, 20]]), trials: new Map() },
      [{ bands: [0], times: 2 }],
      { grounds: [ground(0), ground(1)], mixes: [mixOf(30), mixOf(30)] },
    )
    expect(aims.get(0)!).toBeLessThan(20)
    expect(aims.get(1)).toBe(20)
  })
})
