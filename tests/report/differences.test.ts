import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { planFromText } from '../../src/pipeline.ts'
import { differencesOf } from '../../src/report/differences.ts'
import type { Report } from '../../src/report/report.ts'
import { figuresOf } from '../../src/report/report-page.ts'

const { report } = planFromText(
  JSON.stringify({
    units: 'in',
    centre: { width: 8, height: 8 },
    bands: [{ name: 'quay', width: 2, filler: 'wave' }],
  }),
  catalogOf(LIBRARY),
)

/** The report with some figures exchanged. */
const other = (of: (report: Report) => Partial<Report>): Report => ({ ...report, ...of(report) })
const found = (beside: Report, label: string) =>
  differencesOf(report, beside).find((difference) => difference.label.startsWith(label))!

describe('two plans side by side', () => {
  it('differ in nothing where they are the same', () => {
    const differences = differencesOf(report, report)
    expect(differences.map(({ label }) => label)).toEqual(figuresOf(report).map(({ label }) => label))
    for (const { one, other: beside, change } of differences) {
      expect(one).toBe(beside)
      expect(change).toBe('')
    }
  })

  it('are told in the words and units of the first', () => {
    const metric: Report = { ...report, units: 'cm' }
    expect(differencesOf(report, metric).every(({ change }) => change === '')).toBe(true)
    expect(differencesOf(metric, report)[0]!.one).toContain('cm')
    expect(differencesOf(metric, report)[0]!.other).toContain('cm')
  })

  it.each([
    ['Thread starts', (r: Report) => ({ line: { ...r.line, threadStarts: 4 } }), '3 more'],
    ['Areas', (r: Report) => ({ line: { ...r.line, areas: r.line.areas - 1 } }), '1 fewer'],
    [
      'Moves of the quilt',
      (r: Report) => ({ line: { ...r.line, repositions: r.line.repositions + 1200 } }),
      '1,200 more',
    ],
    ['Stitches', (r: Report) => ({ stitches: { ...r.stitches, count: r.stitches.count - 10 } }), '10 fewer'],
    ['Bobbins', (r: Report) => ({ thread: { ...r.thread, bobbins: r.thread.bobbins + 2 } }), '2 more'],
    [
      'Length of line',
      (r: Report) => ({ line: { ...r.line, lengthMm: r.line.lengthMm + 1828.8 } }),
      '2 yd more',
    ],
    [
      'Needle thread',
      (r: Report) => ({ thread: { ...r.thread, topM: r.thread.topM - 1.8288 } }),
      '2 yd less',
    ],
    [
      'Bobbin thread',
      (r: Report) => ({ thread: { ...r.thread, bobbinM: r.thread.bobbinM + 1.8288 } }),
      '2 yd more',
    ],
    [
      'Travel in seams',
      (r: Report) => ({ line: { ...r.line, travelMm: r.line.travelMm + 50.8 } }),
      '2 in more',
    ],
    [
      'Stitched over',
      (r: Report) => ({ line: { ...r.line, overlapMm: r.line.overlapMm + 25.4 } }),
      '1 in more',
    ],
    ['Time', (r: Report) => ({ time: { ...r.time, minutes: r.time.minutes + 61 } }), '1 hour 1 minute more'],
    [
      'Largest circle',
      (r: Report) => ({ gap: { ...r.gap, largestMm: r.gap.largestMm + 25.4 } }),
      '1 in more',
    ],
    ['Largest square', (r: Report) => ({ gap: { ...r.gap, squareMm: r.gap.squareMm + 25.4 } }), '1 in more'],
    [
      'The batting allows',
      (r: Report) => ({ gap: { ...r.gap, limitMm: r.gap.limitMm - 25.4 } }),
      '1 in less',
    ],
    ['Quilt with its binding', (r: Report) => ({ quilt: { ...r.quilt, widthMm: 1000 } }), 'another'],
  ])('%s: how much more or less the second has', (label, change, words) => {
    const difference = found(other(change), label)
    expect(difference.change).toBe(words)
    expect(difference.one).not.toBe(difference.other)
  })

  it('leave a figure empty that the second does not have', () => {
    const turning = { ...report.line.turning, sectorDegrees: 33 }
    const beside = other(({ line }) => ({ line: { ...line, turning } }))
    expect(found(beside, 'Full turns')).toMatchObject({ other: '', change: 'another' })
  })
})
