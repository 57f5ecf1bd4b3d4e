import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../../motifs/index.ts'
import { planFromText } from '../../src/pipeline.ts'

const bands = [
  { name: 'sand', width: 1, filler: 'bracket' },
  { name: 'stripe', width: 1, filler: 'none' },
  { name: 'foam', width: 2, filler: 'scallop' },
]
const extrasOf = (more: object) =>
  planFromText(JSON.stringify({ centre: { width: 8, height: 8 }, bands, ...more }), { motifs: MOTIFS }).report
    .line

describe('every travel and overlap of a report', () => {
  it('adds up to the figures of the line', () => {
    const line = extrasOf({ machine: { kind: 'frame', throat: 7 } })
    const sum = (kind: string) =>
      line.extras.filter((extra) => extra.kind === kind).reduce((total, { lengthMm }) => total + lengthMm, 0)
    expect(sum('travel')).toBeCloseTo(line.travelMm, 1)
    expect(sum('overlap')).toBeCloseTo(line.overlapMm, 1)
  })

  it('says on which seam, which side, and how far from the corner it lies', () => {
    const { extras } = extrasOf({})
    expect(extras.length).toBeGreaterThan(0)
    for (const { where } of extras)
      expect(where).toMatch(/^(near )?seam \S+ \/ \S+, (top|right|bottom|left), .+ from the corner$/)
  })

  it('says where the way across an unquilted band leads', () => {
    const { extras } = extrasOf({ route: { order: 'middle-out' } })
    expect(extras.map(({ reason }) => reason)).toContain('to the next area, which begins in foam')
    const inward = extrasOf({ route: { order: 'outside-in' } }).extras
    expect(inward.map(({ reason }) => reason)).toContain('to the next area, which begins in sand')
  })

  it('says that the start asked for makes it necessary, and only then', () => {
    const route = { start: { band: 'foam', side: 'top' }, order: 'middle-out' }
    const reasons = extrasOf({ route }).extras.map(({ reason }) => reason)
    expect(reasons[0]).toBe('from the start that was asked for')
    expect(extrasOf({ route: { order: 'middle-out' } }).extras.map(({ reason }) => reason)).not.toContain(
      'from the start that was asked for',
    )
  })
})
