import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { MOTIFS } from '../motifs/index.ts'
import { LIBRARY } from '../motifs/library.ts'
import { catalogOf } from '../src/engine-input.ts'
import { exportDrawing } from '../src/export/index.ts'
import { type LineFile, lineFormat } from '../src/export/line-json.ts'
import { type PlannedQuilt, planFromText } from '../src/pipeline.ts'
import { reportFormat } from '../src/report/report.ts'
import { measureLine } from './support/measure-line.ts'
import { SAMPLES } from './support/samples.ts'

const plan = (text: string): PlannedQuilt => planFromText(text, catalogOf(LIBRARY))
const lineOf = async (planned: PlannedQuilt): Promise<LineFile> =>
  lineFormat.parse(JSON.parse((await exportDrawing('line-json', planned.drawing)) as string))

/** The samples planned, once each. */
const samples = new Map<string, PlannedQuilt>()
function planSample(name: string): PlannedQuilt {
  const known = samples.get(name) ?? plan(SAMPLES[name]!)
  samples.set(name, known)
  return known
}

describe.each(Object.entries(SAMPLES))('the sample %s', (name, text) => {
  const planned = planSample(name)
  const { line } = planned.report

  it('is stitched in one start a thread with at most 2 % overlap', () => {
    expect(line.threadStarts).toBe(planned.report.thread.spools.length)
    expect(line.threadStartsBound).toBe(line.threadStarts)
    expect(line.overlapShare).toBeLessThanOrEqual(0.02)
  })

  it('says in its first line what it shows', () => {
    expect(text).toMatch(/^# \S.{20,}/)
  })

  it('has a report in the public format', () => {
    expect(() => reportFormat.parse(planned.report)).not.toThrow()
  })

  it('agrees with measurements of line.json by other means', async () => {
    const measured = measureLine(await lineOf(planned), planned.quilt)
    expect(measured.starts).toBe(line.threadStarts)
    expect(Math.abs(measured.lengthMm - line.lengthMm)).toBeLessThan(0.002 * line.lengthMm)
    expect(Math.abs(measured.overlapMm - line.overlapMm)).toBeLessThan(0.002 * line.lengthMm + 20)
    // Along the edge of a region there is no seam.
    const inSeams = line.travelMm - planned.report.regions.reduce((sum, { roundMm }) => sum + roundMm, 0)
    expect(Math.abs(measured.seamMm - inSeams)).toBeLessThan(0.003 * line.lengthMm + 20)
  })

  it('gives the same bytes twice', async () => {
    const again = plan(text)
    expect(await exportDrawing('picture', again.drawing)).toBe(
      await exportDrawing('picture', planned.drawing),
    )
    expect(await exportDrawing('line-json', again.drawing)).toBe(
      await exportDrawing('line-json', planned.drawing),
    )
    expect(again.report).toEqual(planned.report)
  })

  it('is never shorter than its proven bound', () => {
    expect(line.lengthMm).toBeGreaterThanOrEqual(line.lowerBoundMm - 0.01)
  })
})

describe('the nine-band medallion', () => {
  const { report } = planSample('harbour-medallion')

  it('has hardly any overlap and travel', () => {
    expect(report.line.overlapShare).toBeLessThanOrEqual(0.005)
    expect(report.line.travelMm / report.line.lengthMm).toBeLessThanOrEqual(0.01)
  })

  it('stretches no repeat by more than 12 %', () => {
    for (const band of report.bands) {
      expect(band.stretch!.min, band.name).toBeGreaterThanOrEqual(0.88)
      expect(band.stretch!.max, band.name).toBeLessThanOrEqual(1.12)
    }
  })

  it('moves the quilt at most twice as often as its area over the reach', () => {
    expect(report.line.repositions).toBeLessThanOrEqual(2 * report.line.repositionsBound)
  })

  it('repeats as often on opposite sides', () => {
    for (const { repeats } of report.bands) {
      const { top, right, bottom, left } = repeats as {
        top: number
        right: number
        bottom: number
        left: number
      }
      expect(top).toBe(bottom)
      expect(left).toBe(right)
    }
  })
})

describe('the validator of lines', () => {
  const planned = planSample('quay-runner')
  const broken = async (change: (line: LineFile['lines'][number]) => void): Promise<LineFile> => {
    const file = structuredClone(await lineOf(planned))
    change(file.lines[0]!)
    return file
  }

  it('refuses a gap', async () => {
    const file = await broken((line) => {
      line.parts[1]!.from += 1
    })
    expect(() => measureLine(file, planned.quilt)).toThrow(/gap/)
  })

  it('refuses a point outside the bands', async () => {
    const file = await broken((line) => {
      line.points[5] = [-3, 40]
    })
    expect(() => measureLine(file, planned.quilt)).toThrow(/outside/)
  })

  it('sees a retrace', async () => {
    const before = measureLine(await lineOf(planned), planned.quilt).overlapMm
    const file = await broken((line) => {
      const back = line.points.slice(0, -1).reverse()
      line.parts.push({
        kind: 'fill',
        band: 'shingle',
        area: 1,
        from: line.points.length - 1,
        to: 2 * line.points.length - 2,
      })
      line.points.push(...back)
    })
    expect(measureLine(file, planned.quilt).overlapMm).toBeGreaterThan(before + 1000)
  })
})

describe('any plan of 1 to 12 bands', () => {
  const suiting = (inches: number) =>
    Object.keys(MOTIFS).filter((name) => MOTIFS[name]!.suits.min <= inches * 25.4 + 1e-6)
  const band = fc
    .record({
      eighths: fc.integer({ min: 4, max: 48 }),
      choice: fc.nat(),
      corners: fc.constantFrom('mitred', 'butted', 'cornerstone'),
    })
    .map(({ eighths, choice, corners }) => {
      const names = suiting(eighths / 8)
      return { width: eighths / 8, filler: names[choice % names.length]!, corners }
    })
  const bands = fc
    .array(band, { minLength: 1, maxLength: 12 })
    .map((list) => list.map((b, i) => ({ ...b, name: `band ${i}` })))
  const size = fc.integer({ min: 8, max: 48 })
  const file = fc.record({
    width: size,
    height: size,
    bands,
    reach: fc.constantFrom([12, 12], [16, 16], [20, 14]),
  })

  it('is one line with at most 2 % overlap, no longer than it must be by 3 %', () => {
    fc.assert(
      fc.property(file, ({ width, height, bands, reach }) => {
        const text = JSON.stringify({ centre: { width, height }, bands, machine: { reach } })
        const { line } = plan(text).report
        expect(line.threadStarts).toBe(1)
        expect(line.overlapShare).toBeLessThanOrEqual(0.02)
        expect(line.lengthMm).toBeLessThanOrEqual(1.03 * line.lowerBoundMm)
      }),
      { seed: 71, numRuns: 6 },
    )
  }, 120_000)
})
