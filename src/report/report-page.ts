import type { Drawing } from '../export/drawing.ts'
import { htmlReport, type ReportTable } from '../export/html-report.ts'
import { FRAME_CAUTIONS, lengthText, longLengthText } from '../export/labels.ts'
import type { Report } from './report.ts'
import { durationText } from './summary.ts'

/** The report as one page to print or keep: picture, figures, order of work and cautions. */
export function reportPage(
  drawing: Drawing,
  { report, pictureSvg }: { report: Report; pictureSvg: string },
): string {
  return htmlReport({
    drawing,
    pictureSvg,
    figures: figuresOf(report),
    tables: [bandTable(report), ...(report.thread.bobbinChanges.length > 0 ? [bobbinTable(report)] : [])],
    warnings: report.warnings,
    cautions: FRAME_CAUTIONS,
  })
}

/** The figures that a quilter reads first, in words and the plan's units. */
export function figuresOf({
  quilt,
  line,
  stitches,
  thread,
  time,
  gap,
  units,
}: Report): { label: string; value: string }[] {
  const length = (mm: number) => lengthText(mm, units)
  const long = (mm: number) => longLengthText(mm, units)
  return [
    { label: 'Quilt with its binding', value: `${length(quilt.widthMm)} x ${length(quilt.heightMm)}` },
    { label: 'Thread starts', value: String(line.threadStarts) },
    { label: 'Length of line', value: long(line.lengthMm) },
    { label: 'Travel in seams', value: length(line.travelMm) },
    { label: 'Stitched over', value: length(line.overlapMm) },
    { label: 'Areas', value: String(line.areas) },
    { label: 'Moves of the quilt', value: String(line.repositions) },
    { label: 'Stitches', value: stitches.count.toLocaleString('en-GB') },
    { label: 'Needle thread', value: long(thread.topM * 1000) },
    { label: 'Bobbin thread', value: long(thread.bobbinM * 1000) },
    { label: 'Bobbins', value: String(thread.bobbins) },
    { label: 'Time', value: durationText(time.minutes) },
    { label: 'Largest gap', value: `${length(gap.largestMm)}; the batting allows ${length(gap.limitMm)}` },
  ]
}

const percent = (ratio: number): string => `${Math.round(ratio * 100)} %`

function bandTable({ bands, units }: Report): ReportTable {
  return {
    caption: 'Bands, from the inside out',
    head: ['Band', 'Filler', 'Repeats a side', 'Length of a repeat', 'Line', 'Stitches', 'Largest gap'],
    rows: bands.map((band) => [
      band.name,
      band.filler ?? 'none',
      band.repeats ? Object.values(band.repeats).join(', ') : '',
      band.stretch ? `${percent(band.stretch.min)} to ${percent(band.stretch.max)}` : '',
      longLengthText(band.stitchedMm, units),
      String(band.stitches),
      band.gapMm === null ? '' : lengthText(band.gapMm, units),
    ]),
  }
}

function bobbinTable({ thread, units }: Report): ReportTable {
  return {
    caption: 'Where to change the bobbin',
    head: ['Change', 'After', 'Where', 'Why there'],
    rows: thread.bobbinChanges.map((change, i) => [
      String(i + 1),
      longLengthText(change.alongMm, units),
      change.where,
      change.reason,
    ]),
  }
}
