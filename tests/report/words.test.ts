import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { planFromText } from '../../src/pipeline.ts'
import type { Report } from '../../src/report/report.ts'
import { reportTables } from '../../src/report/report-tables.ts'
import { durationText, rangeText, summaryText } from '../../src/report/summary.ts'

const { report } = planFromText(
  JSON.stringify({
    units: 'mm',
    title: 'Slipway',
    centre: { width: 300, height: 300 },
    bands: [{ name: 'tar', width: 40, filler: 'scallop' }],
  }),
  catalogOf(LIBRARY),
)

const [band] = report.bands
const [spool] = report.thread.spools
const foot = { reasons: [], smallestRadiusMm: null, pivots: 0, reversals: 0 }
const withLine = (line: Partial<Report['line']>): Report => ({ ...report, line: { ...report.line, ...line } })
const withThread = (thread: Partial<Report['thread']>): Report => ({
  ...report,
  thread: { ...report.thread, ...thread },
})
const walkedOn = (...verdicts: ('suits' | 'cannot' | undefined)[]): Report => ({
  ...report,
  bands: verdicts.map((verdict, i) => ({
    ...band!,
    name: `band ${i + 1}`,
    walkingFoot: verdict ? { ...foot, verdict } : null,
  })),
})

/** The line of the summary that holds a word. */
const said = (of: Report, word: string): string | undefined =>
  summaryText(of)
    .split('\n')
    .find((line) => line.includes(word))

/** The rows of the table under a caption that holds a word; none if it is left out. */
const rows = (of: Report, word: string) =>
  reportTables(of).find(({ caption }) => caption.includes(word))?.rows ?? []

describe('the summary says', () => {
  it.each([
    [0, 'never'],
    [1, 'once'],
    [2, 'twice'],
    [7, '7 times'],
  ])('that the quilt is moved %i times as "%s"', (repositions, words) => {
    expect(said(withLine({ repositions }), 'is moved')).toMatch(new RegExp(`the quilt is moved ${words}$`))
  })

  it('that one filler goes over all, and how much the quilt is turned under a walking foot', () => {
    expect(said(report, 'All over')).toBeUndefined()
    const over: Report = { ...report, allOver: { ...(report.allOver as object), filler: 'meander' } as never }
    expect(said(over, 'All over')).toBe('All over: meander, whatever the bands are')
    expect(said(report, 'turned')).toBeUndefined()
    const turning = { ...report.line.turning, foot: 'walking' as const, turns: 12.4, sectorDegrees: 90 }
    expect(said(withLine({ turning }), 'turned')).toBe(
      'The quilt is turned 12 times right round in all: the foot feeds forward only, 90 degrees of direction are comfortable',
    )
  })

  it('how many lines there are', () => {
    expect(said(withLine({ threadStarts: 1 }), 'thread start')).toContain('One line, one thread start: ')
    expect(said(withLine({ threadStarts: 3 }), 'thread start')).toContain('3 lines, 3 thread starts: ')
  })

  it('travel and overlap with their share, and none as none', () => {
    expect(said(withLine({ travelMm: 0, overlapMm: 0 }), 'Travel')).toBe(
      'Travel in seams none; stitched over none',
    )
    expect(said(withLine({ lengthMm: 10_000, travelMm: 123, overlapMm: 4 }), 'Travel')).toBe(
      'Travel in seams 123 mm (1.2 %); stitched over 4 mm (under 0.1 %)',
    )
  })

  it('spools only if the plan says what one holds', () => {
    expect(said(withThread({ spoolM: null }), 'spool')).toBeUndefined()
    const two = { ...spool!, thread: '#ffffff', spools: 2 }
    expect(said(withThread({ spoolM: 500, spools: [two] }), 'spool')).toBe('2 spools of 500 m of #ffffff')
    const open = withThread({ spoolM: 500, spools: [{ ...two, spools: null }] })
    expect(said(open, 'spool')).toBe('0 spools of 500 m of #ffffff')
  })

  it('several threads one by one, and where each is put in', () => {
    const spools = ['#111111', '#222222'].map((thread) => ({ ...spool!, thread, bands: ['tar'], starts: 1 }))
    const change = {
      start: 2,
      from: '#111111',
      to: '#222222',
      at: [0, 0] as [number, number],
      where: 'tar, top',
    }
    const often = withThread({ spools, changes: [change], changesBound: 0 })
    expect(said(often, '2 threads')).toBe('2 threads; the thread is changed once, 0 would be the fewest')
    expect(said(often, 'Thread #222222')).toMatch(/^Thread #222222 for tar: .* of line in 1 start; needle /)
    expect(said(often, 'Before start')).toBe('Before start 2 put in thread #222222: it begins at tar, top')
    const best = withThread({ spools, changes: [change], changesBound: 1 })
    expect(said(best, '2 threads')).toContain('as seldom as can be')
    expect(rows(best, 'change the thread')).toEqual([['2', '#111111', '#222222', 'tar, top']])
  })

  it('what is kept free, and how its edge is stitched', () => {
    const region = {
      name: 'anchor',
      shape: 'circle' as const,
      edgeMm: 120,
      outlinedMm: 120,
      roundMm: 0,
      outlined: true,
      sizeMm: 38,
      at: null,
      withinLimit: true,
    }
    const kept = (more: Partial<typeof region>): Report => ({ ...report, regions: [{ ...region, ...more }] })
    expect(said(kept({}), 'Kept free')).toBe('Kept free: anchor, stitched along its whole edge, 120 mm')
    expect(said(kept({ outlined: false, roundMm: 15 }), 'Kept free')).toBe(
      'Kept free: anchor, its edge is not stitched all round; 15 mm more along it to go round',
    )
    expect(said(kept({ edgeMm: 0 }), 'Kept free')).toContain('lies in another region or beside the quilting')
    expect(rows(kept({}), 'Regions')).toEqual([['anchor', '120 mm', 'all round', '0 mm', '38 mm', 'yes']])
    expect(rows(kept({ outlined: false, withinLimit: false }), 'Regions')[0]).toEqual([
      'anchor',
      '120 mm',
      '120 mm',
      '0 mm',
      '38 mm',
      'no: stitch it by itself',
    ])
  })

  it('which bands a walking foot can stitch', () => {
    expect(said(walkedOn(undefined), 'walking foot')).toBeUndefined()
    expect(said(walkedOn('suits', 'suits'), 'walking foot')).toBe('A walking foot can stitch every band')
    expect(said(walkedOn('cannot', undefined), 'walking foot')).toBe(
      'A walking foot can stitch none of the bands',
    )
    expect(said(walkedOn('suits', 'cannot'), 'walking foot')).toBe('A walking foot cannot stitch band 2')
    expect(rows(walkedOn('suits', undefined), 'walking foot')).toEqual([
      ['band 1', 'suits', '', 'straight', '0', '0'],
    ])
  })

  it('warnings with their place, if they have one', () => {
    const warnings = [
      { code: 'a/b', message: 'first', at: '' },
      { code: 'a/c', message: 'second', at: 'bands[0]' },
    ]
    expect(
      summaryText({ ...report, warnings })
        .split('\n')
        .slice(-2),
    ).toEqual(['Mind: first', 'Mind: bands[0]: second'])
  })

  it('what was chosen, for a part or a whole, and what no choice could help', () => {
    const made = {
      at: 'tar',
      part: null,
      what: 'filler' as const,
      filler: 'wave',
      value: { name: 'repeat', mm: 50 },
      reason: 'it suits',
    }
    const choices = {
      spacing: 'auto' as const,
      density: 'medium' as const,
      wantedMmPerCm2: 9,
      made: [made, { ...made, part: 'top', filler: null, value: null }],
      overLimit: [{ at: 'tar', gapMm: 210, overMm: 10, why: 'too wide' }],
      uneven: [
        { at: 'tar', beside: 'oak', ratio: 3.26, why: 'too dense' },
        { at: 'oak', beside: 'tar', ratio: null, why: 'bare' },
      ],
    }
    const chosen = { ...report, choices }
    expect(said(chosen, 'Chosen for tar:')).toBe('Chosen for tar: wave: it suits')
    expect(said(chosen, 'Chosen for tar, top')).toBe('Chosen for tar, top: no filler: it suits')
    expect(rows(chosen, 'What was chosen')).toEqual([
      ['tar', 'wave', 'repeat 50 mm', 'it suits'],
      ['tar, top', 'none', 'its own', 'it suits'],
    ])
    expect(rows(chosen, 'no choice')).toEqual([
      ['tar', "a gap of 210 mm, 10 mm past the batting's limit", 'too wide'],
      ['tar', '3.3 times the density of oak, or a part', 'too dense'],
      ['oak', 'one of it and tar is bare', 'bare'],
    ])
    expect(rows(report, 'What was chosen')).toEqual([])
  })
})

describe('the tables leave open', () => {
  it('what a bare band does not have', () => {
    const bare = {
      ...band!,
      filler: null,
      repeats: null,
      stretch: null,
      ratio: null,
      gapMm: null,
      gapAt: null,
      squareMm: null,
      squareAt: null,
      stitchedMm: 0,
      stitches: 0,
      mmPerCm2: 0,
    }
    const plain = { ...report, bands: [bare] }
    expect(rows(plain, 'from the inside out')).toEqual([['tar', 'none', '', '', '0 m', '0', '0.0', '']])
    expect(rows(plain, 'places without stitching')[1]).toEqual(['tar', '', '', '', ''])
    expect(rows({ ...report, bands: [{ ...band!, ratio: 1.26 }] }, 'inside out')[0]!.at(-1)).toBe('1.3')
  })

  it('spools of a size that is not said', () => {
    expect(rows(withThread({ spools: [{ ...spool!, spools: null }] }), 'Thread, with')[0]!.at(-1)).toBe(
      'thread.spool is not said',
    )
    const told = withThread({ spoolM: 500, spools: [{ ...spool!, spools: 3 }] })
    expect(rows(told, 'a spool holds 500 m')[0]!.at(-1)).toBe('3')
  })
})

describe('lengths of time and ranges in words', () => {
  it.each([
    [0.2, '0 minutes'],
    [1, '1 minute'],
    [59.4, '59 minutes'],
    [60, '1 hour'],
    [61, '1 hour 1 minute'],
    [150, '2 hours 30 minutes'],
  ])('%f minutes', (minutes, words) => {
    expect(durationText(minutes)).toBe(words)
  })

  it('a range says its unit once, and one length where both ends read alike', () => {
    expect(rangeText([100, 103], 'mm')).toBe('100 to 103 mm')
    expect(rangeText([100, 100.2], 'mm')).toBe('100 mm')
  })
})
