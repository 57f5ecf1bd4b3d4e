import type { Drawing } from '../export/drawing.ts'
import { htmlReport } from '../export/html-report.ts'
import { countText, FRAME_CAUTIONS, lengthText, longLengthText } from '../export/labels.ts'
import type { Report } from './report.ts'
import { reportTables } from './report-tables.ts'
import { durationText, rangeText } from './summary.ts'

/** The report as one page to print or keep: picture, figures, order of work and cautions. */
export function reportPage(
  drawing: Drawing,
  { report, pictureSvg }: { report: Report; pictureSvg: string },
): string {
  return htmlReport({
    drawing,
    pictureSvg,
    figures: figuresOf(report),
    tables: reportTables(report),
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
  washed,
  evenness,
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
    {
      label: `Full turns of the quilt with a foot that feeds forward only (${line.turning.sectorDegrees} degrees are comfortable)`,
      value: line.turning.turns.toFixed(0),
    },
    { label: 'Stitches', value: countText(stitches.count) },
    { label: 'Needle thread', value: long(thread.topM * 1000) },
    { label: 'Bobbin thread', value: long(thread.bobbinM * 1000) },
    {
      label: 'Bobbins',
      value: `${thread.bobbins} of ${long(thread.capacityM * 1000)}${thread.capacityIsEstimate ? ' (an estimate: measure your own)' : ''}`,
    },
    { label: 'Time', value: durationText(time.minutes) },
    { label: 'Largest circle without stitching', value: `${length(gap.largestMm)} across` },
    { label: 'Largest square without stitching', value: `${length(gap.squareMm)} a side` },
    { label: 'The batting allows', value: length(gap.limitMm) },
    {
      label: 'Greatest ratio of density between neighbours',
      value: evenness.worstRatio?.toFixed(1) ?? 'a bare band lies beside one that is not',
    },
    {
      label: 'After the first wash',
      value: `${rangeText(washed.widthMm, units)} x ${rangeText(washed.heightMm, units)}`,
    },
  ]
}
