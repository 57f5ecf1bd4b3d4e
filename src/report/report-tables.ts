import type { ReportTable } from '../export/html-report.ts'
import { countText, lengthText, longLengthText } from '../export/labels.ts'
import type { Report } from './report.ts'

/** The tables of a report: bands, choices, gaps, walking foot, thread, bobbins, time and extras; those without rows are left out. */
export const reportTables = (report: Report): ReportTable[] =>
  [
    bandTable(report),
    choiceTable(report),
    helplessTable(report),
    gapTable(report),
    regionTable(report),
    walkingFootTable(report),
    spoolTable(report),
    changeTable(report),
    bobbinTable(report),
    timeTable(report),
    extrasTable(report),
  ].filter(({ rows }) => rows.length > 0)

const percent = (ratio: number): string => `${Math.round(ratio * 100)} %`

function bandTable({ bands, units, evenness }: Report): ReportTable {
  return {
    caption: `Bands, from the inside out (a density ratio above ${evenness.limit} to the band before is uneven)`,
    head: [
      'Band',
      'Filler',
      'Repeats a side',
      'Length of a repeat',
      'Line',
      'Stitches',
      'mm per cm²',
      'Ratio',
    ],
    rows: bands.map((band) => [
      band.name,
      band.filler ?? 'none',
      band.repeats ? Object.values(band.repeats).join(', ') : '',
      band.stretch ? `${percent(band.stretch.min)} to ${percent(band.stretch.max)}` : '',
      longLengthText(band.stitchedMm, units),
      countText(band.stitches),
      band.mmPerCm2.toFixed(1),
      band.ratio?.toFixed(1) ?? '',
    ]),
  }
}

function choiceTable({ choices, units }: Report): ReportTable {
  return {
    caption: `What was chosen, and why${choices ? ` (${choices.density} quilting: about ${choices.wantedMmPerCm2} mm of line to the cm²)` : ''}`,
    head: ['Where', 'Filler', 'Spacing', 'Why'],
    rows: (choices?.made ?? []).map(({ at, part, filler, value, reason }) => [
      part === null ? at : `${at}, ${part}`,
      filler ?? 'none',
      value ? `${value.name} ${lengthText(value.mm, units)}` : 'its own',
      reason,
    ]),
  }
}

/** Gaps and neighbours that no choice can help. */
function helplessTable({ choices, units }: Report): ReportTable {
  const gaps = (choices?.overLimit ?? []).map(({ at, gapMm, overMm, why }) => [
    at,
    `a gap of ${lengthText(gapMm, units)}, ${lengthText(overMm, units)} past the batting's limit`,
    why,
  ])
  const uneven = (choices?.uneven ?? []).map(({ at, beside, ratio, why }) => [
    at,
    ratio === null
      ? `one of it and ${beside} is bare`
      : `${ratio.toFixed(1)} times the density of ${beside}, or a part`,
    why,
  ])
  return {
    caption: 'What no choice could help',
    head: ['Where', 'What', 'Why'],
    rows: [...gaps, ...uneven],
  }
}

function gapTable({ bands, gap, units }: Report): ReportTable {
  const length = (mm: number | null) => (mm === null ? '' : lengthText(mm, units))
  const at = (place: readonly number[] | null) => place?.map((mm) => lengthText(mm, units)).join(', ') ?? ''
  const all = {
    name: 'whole quilt',
    gapMm: gap.largestMm,
    gapAt: gap.at,
    squareMm: gap.squareMm,
    squareAt: gap.squareAt,
  }
  return {
    caption: `Largest places without stitching (the batting allows ${lengthText(gap.limitMm, units)}; places are from the left and from the top)`,
    head: ['Where', 'Circle, across', 'Its middle', 'Square, a side', 'Its middle'],
    rows: [all, ...bands].map((where) => [
      where.name,
      length(where.gapMm),
      at(where.gapAt),
      length(where.squareMm),
      at(where.squareAt),
    ]),
  }
}

function regionTable({ regions, units }: Report): ReportTable {
  return {
    caption: 'Regions kept free of stitching (one stitched all round is left out of the gaps above)',
    head: [
      'Region',
      'Edge',
      'Outlined',
      'Gone round',
      'Circle in it, across',
      'Within the limit of the batting',
    ],
    rows: regions.map((region) => [
      region.name,
      lengthText(region.edgeMm, units),
      region.outlined ? 'all round' : lengthText(region.outlinedMm, units),
      lengthText(region.roundMm, units),
      lengthText(region.sizeMm, units),
      region.withinLimit ? 'yes' : 'no: stitch it by itself',
    ]),
  }
}

function walkingFootTable({ bands, units }: Report): ReportTable {
  return {
    caption: 'With a walking foot',
    head: ['Band', 'Verdict', 'Why', 'Smallest radius', 'Pivots', 'Turned right round'],
    rows: bands.flatMap(({ name, walkingFoot }) =>
      walkingFoot
        ? [
            [
              name,
              walkingFoot.verdict,
              walkingFoot.reasons.join('; '),
              walkingFoot.smallestRadiusMm === null
                ? 'straight'
                : lengthText(walkingFoot.smallestRadiusMm, units),
              countText(walkingFoot.pivots),
              countText(walkingFoot.reversals),
            ],
          ]
        : [],
    ),
  }
}

function spoolTable({ thread, units }: Report): ReportTable {
  const long = (m: number) => longLengthText(m * 1000, units)
  return {
    caption: `Thread, with waste and tails${thread.spoolM === null ? '' : `; a spool holds ${long(thread.spoolM)}`}`,
    head: ['Thread', 'Bands', 'Line', 'Starts', 'Needle', 'Bobbin', 'Bobbins', 'Spools'],
    rows: thread.spools.map((colour) => [
      colour.thread,
      colour.bands.join(', '),
      longLengthText(colour.lineMm, units),
      String(colour.starts),
      long(colour.needleM),
      long(colour.bobbinM),
      String(colour.bobbins),
      colour.spools === null ? 'thread.spool is not said' : String(colour.spools),
    ]),
  }
}

function changeTable({ thread: { changes, changesBound } }: Report): ReportTable {
  return {
    caption: `When to change the thread (no work over these pieces changes it less than ${changesBound} times)`,
    head: ['Before start', 'From', 'To', 'Which begins at'],
    rows: changes.map(({ start, from, to, where }) => [String(start), from, to, where]),
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

function timeTable({ time }: Report): ReportTable {
  return {
    caption: 'Time, at these rates',
    head: ['What', 'Rate', 'Minutes'],
    rows: time.parts.map(({ what, rate, minutes }) => [what, rate, minutes.toFixed(1)]),
  }
}

function extrasTable({ line, units }: Report): ReportTable {
  return {
    caption: 'Travel and overlap',
    head: ['What', 'Length', 'Where', 'Why'],
    rows: line.extras.map(({ kind, lengthMm, where, reason }) => [
      kind,
      lengthText(lengthMm, units),
      where,
      reason,
    ]),
  }
}
