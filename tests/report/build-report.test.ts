import { describe, expect, it } from 'vitest'
import { LIBRARY } from '../../motifs/library.ts'
import { catalogOf } from '../../src/engine-input.ts'
import { PlanError } from '../../src/error.ts'
import { planFromText } from '../../src/pipeline.ts'
import { reportFormat } from '../../src/report/report.ts'
import { reportPage } from '../../src/report/report-page.ts'
import { reportTables } from '../../src/report/report-tables.ts'
import { summaryText } from '../../src/report/summary.ts'
import { BATTINGS } from '../../src/stitch/batting.ts'

const plan = (file: unknown) => planFromText(JSON.stringify(file), catalogOf(LIBRARY))
const quilt = (more: Record<string, unknown> = {}) => ({
  title: 'Slipway',
  centre: { width: 12, height: 16 },
  bands: [
    { name: 'tar', width: 1, filler: 'bracket' },
    { name: 'oak', width: 2 },
    { name: 'sail', width: 2, filler: 'scallop' },
  ],
  ...more,
})

describe('the report', () => {
  const { report, drawing } = plan(quilt({ thread: { bobbin: '8 m', spool: '50 m' } }))

  it('counts stitches in its bands by their share of the line', () => {
    const inBands = report.bands.reduce((sum, band) => sum + band.stitches, 0)
    expect(inBands).toBeLessThanOrEqual(report.stitches.count)
    // What lies in seams has no band; elsewhere stitches are about as long as one another.
    const filled = report.bands.reduce((sum, band) => sum + band.stitchedMm, 0)
    expect(Math.abs(inBands / report.stitches.count - filled / report.line.lengthMm)).toBeLessThan(0.04)
  })

  it('finds no gap of a band larger than the whole quilt’s, and squares no larger than their circles’ diameters', () => {
    for (const band of report.bands) {
      expect(band.gapMm!).toBeLessThanOrEqual(report.gap.largestMm + 0.2)
      expect(band.squareMm!).toBeLessThanOrEqual(band.gapMm! + 0.2)
      expect(band.squareMm! * Math.SQRT2).toBeGreaterThanOrEqual(band.gapMm! - 0.5)
    }
  })

  it('finds the gap of a bare band as wide as the band, or wider where it turns its corner', () => {
    const width = 2 * 25.4
    // The largest circle in the corner of a band of even width w: between two inner sides' corner and the outer corner,
    // its diameter d has d/2 (1 + sqrt 2) = w sqrt 2.
    const inCorner = (2 * width * Math.SQRT2) / (1 + Math.SQRT2)
    expect(report.bands[1]!.gapMm).toBeGreaterThanOrEqual(width - 0.2)
    expect(report.bands[1]!.gapMm).toBeLessThanOrEqual(Math.max(width, inCorner) + 1e-3)
    expect(report.bands[1]!.squareMm).toBeGreaterThanOrEqual(width - 0.2)
  })

  it('needs as many spools as its threads fill, and a bobbin more than it is changed', () => {
    const [spools] = report.thread.spools
    expect(report.thread.spools).toHaveLength(1)
    expect(spools!.spools).toBe(Math.ceil((report.thread.topM + report.thread.bobbinM) / 50))
    expect(report.thread.bobbins).toBe(report.thread.bobbinChanges.length + 1)
    expect(report.thread.bobbinChanges.length).toBeGreaterThan(0)
    for (const { where } of report.thread.bobbinChanges)
      expect(where).toMatch(/seam .* \/ .*, .* in from the corner/)
  })

  it('shrinks as the batting does', () => {
    const { washed } = report
    const [least, most] = BATTINGS['cotton-scrim'].shrinkage
    expect(washed.widthMm[0]).toBeCloseTo(report.quilt.widthMm * (1 - most), 2)
    expect(washed.widthMm[1]).toBeCloseTo(report.quilt.widthMm * (1 - least), 2)
    expect(washed.heightMm[1]).toBeCloseTo(report.quilt.heightMm * (1 - least), 2)
  })

  it('does not shrink on polyester', () => {
    const { washed, quilt: size } = plan(quilt({ batting: { kind: 'polyester' } })).report
    expect(washed.widthMm).toEqual([size.widthMm, size.widthMm])
  })

  it('judges each quilted band for a walking foot, and no other', () => {
    const [tar, oak, sail] = report.bands
    expect(tar!.walkingFoot!.verdict).toBe('cannot')
    expect(tar!.walkingFoot!.reasons).not.toEqual([])
    expect(oak!.walkingFoot).toBeNull()
    expect(sail!.walkingFoot).not.toBeNull()
  })

  it('compares each quilted band with the quilted one inside it', () => {
    const [tar, oak, sail] = report.bands
    expect(tar!.ratio).toBeNull()
    expect(oak!.ratio).toBeNull()
    const ratio = tar!.mmPerCm2 / sail!.mmPerCm2
    expect(sail!.ratio).toBeCloseTo(Math.max(ratio, 1 / ratio), 2)
    expect(report.evenness.worstRatio).toBe(sail!.ratio)
  })

  it('adds its time up from its rates, and takes every rate from the plan', () => {
    const machine = {
      speed: 400,
      tightCurveSpeed: 0.5,
      repositionSeconds: 30,
      bobbinSeconds: 60,
      startSeconds: 10,
      advanceSeconds: 20,
      threadSeconds: 40,
      turnSeconds: 15,
    }
    const slow = plan(quilt({ machine, thread: { bobbin: '8 m' } })).report.time
    expect(slow.parts.map((part) => part.rate)).toEqual([
      '400 stitches/min',
      '200 stitches/min',
      '10 s each',
      '30 s each',
      '60 s each',
      '20 s each',
      '40 s each',
      '15 s each',
    ])
    expect(slow.parts.reduce((sum, part) => sum + part.minutes, 0)).toBeCloseTo(slow.minutes, 2)
  })

  it('counts advances on a frame instead of moves by hand', () => {
    const { time } = plan(quilt({ machine: { kind: 'frame', reach: [60, 10] } })).report
    const count = (what: string) => Number.parseInt(time.parts.find((p) => p.what.endsWith(what))!.what, 10)
    expect(count('repositions')).toBe(0)
    expect(count('frame advances')).toBeGreaterThan(0)
  })

  it('has all of it in words and in tables', () => {
    const text = summaryText(report)
    for (const said of [
      'Bobbin change 1: after',
      'largest square',
      'After washing',
      'spool of 54.7 yd',
      'walking foot',
    ])
      expect(text).toContain(said)
    const captions = reportTables(report).map((table) => table.caption)
    expect(captions.length).toBeGreaterThanOrEqual(6)
    for (const { head, rows } of reportTables(report))
      for (const row of rows) expect(row).toHaveLength(head.length)
    const page = reportPage(drawing, { report, pictureSvg: '<svg/>' })
    for (const caption of captions) expect(page).toContain(caption)
    expect(page).not.toMatch(/NaN|undefined/)
  })

  it('is in the public format even where no band is quilted', () => {
    const bare = quilt().bands.map(({ name, width }) => ({ name, width }))
    const wholly = plan(
      quilt({ bands: [...bare.slice(0, 2), { name: 'sail', width: 2, filler: 'scallop' }] }),
    )
    expect(() => reportFormat.parse(JSON.parse(JSON.stringify(wholly.report)))).not.toThrow()
  })
})

describe('nonsense in what is reckoned with', () => {
  it.each([
    ['no stitches to the inch', { stitch: { perInch: 0 } }, 'stitch.perInch'],
    ['a stitch without length', { stitch: { length: 0 } }, 'stitch.length'],
    ['a bobbin with less than nothing', { thread: { bobbin: '-5 m' } }, 'thread.bobbin'],
    ['a bobbin too small to sew with', { thread: { bobbin: '1 cm' } }, 'thread.bobbin'],
    ['a spool without thread', { thread: { spool: 0 } }, 'thread.spool'],
    ['tails of a mile', { thread: { tail: '1609 m' } }, 'thread.tail'],
    ['waste over 100 %', { thread: { waste: 1.5 } }, 'thread.waste'],
    ['a speed of nothing', { machine: { speed: 0 } }, 'machine.speed'],
    ['a rate below nothing', { machine: { bobbinSeconds: -1 } }, 'machine.bobbinSeconds'],
    ['curves faster than straight lines', { machine: { tightCurveSpeed: 2 } }, 'machine.tightCurveSpeed'],
    ['an unknown rate', { machine: { lunchSeconds: 30 } }, 'machine.lunchSeconds'],
    ['an unknown colour', { thread: { colour: 'blurple' } }, 'thread.colour'],
    ['an unknown batting', { batting: { kind: 'wadding' } }, 'batting.kind'],
  ])('refuses %s with its place', (_, more, at) => {
    const refused = (() => {
      try {
        plan(quilt(more))
      } catch (error) {
        return error
      }
      return undefined
    })()
    expect(refused).toBeInstanceOf(PlanError)
    const { problems } = refused as PlanError
    expect(problems.map((p) => p.at)).toEqual([at])
    expect(problems[0]!.position).toBeDefined()
  })
})
