import { type Evenness, measureEvenness, UNEVEN_RATIO } from '../check/evenness.ts'
import type { Gap, Gaps } from '../check/largest-gap.ts'
import type { WalkingFootCheck } from '../check/walking-foot.ts'
import type { Choices } from '../choose/choose-plan.ts'
import type { Problem } from '../error.ts'
import { lengthText } from '../export/labels.ts'
import type { Point } from '../geometry/point.ts'
import { strokeLength } from '../geometry/stroke.ts'
import type { BandFit } from '../pieces/pieces.ts'
import type { PlannedLines } from '../pieces/plan-threads.ts'
import type { Plan } from '../plan/plan.ts'
import { outlineInside } from '../plan/setting-bands.ts'
import { outlineArea } from '../quilt/outline.ts'
import type { OutlineName } from '../quilt/outline-names.ts'
import type { Quilt } from '../quilt/quilt.ts'
import { afterWash, BATTINGS, type BattingKind } from '../stitch/batting.ts'
import { spoolsNeeded } from '../stitch/thread-use.ts'
import { openArea } from './band-area.ts'
import { choicesEntry } from './choices-entry.ts'
import type { QuiltGaps } from './find-gaps.ts'
import { isQuilted } from './is-quilted.ts'
import type { LineFigures } from './measure-line.ts'
import type { Reckoning } from './reckon.ts'
import type { RegionFigures } from './region-figures.ts'
import type { Extra, Report, Warning } from './report.ts'
import { wherePoint } from './where.ts'

/** Everything that the report is made from. */
export interface Findings {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly fits: readonly BandFit[]
  /** The lines with what is known of them. */
  readonly work: PlannedLines
  /** No line over the same pieces with so few starts is shorter, mm. */
  readonly lowerBoundMm: number
  readonly extras: readonly Extra[]
  readonly figures: LineFigures
  readonly reckoning: Reckoning
  readonly gaps: QuiltGaps
  /** What of the edges of avoided regions is stitched. */
  readonly regions: readonly RegionFigures[]
  /** Where the plan left anything to be chosen. */
  readonly choices?: Choices
  /** Warnings of the plan file. */
  readonly warnings: readonly Problem[]
}

/** How much a repeat may be stretched before it is said. */
const STRETCH_WARNING = 0.12

/** Puts all figures of a plan into the public form of report.json. */
export function buildReport(findings: Findings): Report {
  const { plan, quilt, work, figures, reckoning } = findings
  const evenness = evennessOf(findings)
  const bands = bandEntries(findings, evenness)
  const choices = findings.choices && choicesEntry(findings.choices, { ...findings, evenness })
  const [reachWidth, reachHeight] = plan.machine.reach
  return {
    $schema: 'report.schema.json',
    version: 1,
    title: plan.title,
    units: plan.units,
    quilt: { widthMm: round(quilt.widthMm), heightMm: round(quilt.heightMm) },
    washed: washedEntry(findings),
    line: {
      lengthMm: round(figures.lengthMm),
      threadStarts: work.lines.length,
      threadStartsBound: work.startsBound,
      travelMm: round(figures.travelMm),
      overlapMm: round(figures.overlapMm),
      overlapShare: share(figures.overlapMm, figures.lengthMm),
      lowerBoundMm: round(findings.lowerBoundMm),
      repositions: work.frame ? 0 : figures.repositions.length,
      turning: {
        foot: plan.machine.foot,
        sectorDegrees: round(plan.machine.sector),
        turns: round(figures.turns),
        weight: round(plan.route.turning),
      },
      repositionsBound: round((quilt.widthMm * quilt.heightMm) / (reachWidth * reachHeight)),
      areas: work.areaCount,
      strategies: strategyEntries(work),
      extras: [...findings.extras],
    },
    ...frameEntry(findings),
    stitches: {
      count: reckoning.stitches.reduce((sum, s) => sum + s.count, 0),
      lengthMm: plan.stitch.length,
    },
    thread: threadEntry(findings),
    time: {
      minutes: round(reckoning.time.minutes),
      parts: reckoning.time.entries.map(({ what, count, rate, rateUnit, minutes }) => ({
        what: `${round(count)} ${what}`,
        minutes: round(minutes),
        rate: `${round(rate)} ${rateUnit}`,
      })),
    },
    gap: gapEntry(findings),
    bands,
    regions: regionEntries(findings),
    evenness: { worstRatio: ratioOf(evenness.worstRatio), limit: UNEVEN_RATIO },
    ...allOverEntry(findings),
    ...(choices && { choices }),
    warnings: [
      ...findings.warnings.map(({ code, message, at }) => ({ code, message, at })),
      ...warningsOf(findings, { bands, choices }),
      ...evenness.warnings.map(({ code, message, at }) => ({ code, message, at })),
    ],
  }
}

/** How each thread is worked; on a frame a thread is put in again and again, in the same way. */
function strategyEntries({ works }: PlannedLines): Report['line']['strategies'] {
  const byThread = new Map(works.map(({ thread, strategy }) => [thread, strategy]))
  return [...byThread].map(([thread, { way, why }]) => ({ thread, way, why }))
}

function allOverEntry({ plan, quilt, figures }: Findings): Pick<Report, 'allOver'> {
  if (!plan.allOver) return {}
  const area = Math.abs(outlineArea(quilt.rings.at(-1)!))
  return {
    allOver: {
      filler: plan.allOver.name,
      stitchedMm: round(figures.lengthMm),
      mmPerCm2: round(densityOf(figures.lengthMm, area)),
    },
  }
}

function frameEntry({ work: { frame, lines }, plan }: Findings): Pick<Report, 'frame'> {
  if (!frame) return {}
  return {
    frame: {
      passes: frame.passes.length,
      starts: lines.length,
      startsBound: frame.startsBound,
      advances: frame.passes.length - 1,
      throatMm: round(plan.machine.throat ?? 0),
      strips: frame.passes.map(({ top, bottom }) => ({ topMm: round(top), bottomMm: round(bottom) })),
    },
  }
}

/** Figures are printed to a thousandth: a thread's thickness is a hundred times that. */
const round = (value: number): number => Math.round(value * 1000) / 1000
const share = (part: number, whole: number): number =>
  whole > 0 ? Math.round((part / whole) * 1e6) / 1e6 : 0
const roundPoint = ([x, y]: Point): [number, number] => [round(x), round(y)]

function threadEntry(findings: Findings): Report['thread'] {
  const { plan, quilt, reckoning } = findings
  const sum = (of: 'needleM' | 'bobbinM') =>
    round(reckoning.thread.reduce((total, use) => total + use[of], 0))
  return {
    topM: sum('needleM'),
    bobbinM: sum('bobbinM'),
    bobbins: reckoning.changes.length + Math.max(1, reckoning.thread.length),
    capacityM: round(plan.thread.bobbinM),
    capacityIsEstimate: plan.thread.isEstimate,
    spoolM: plan.thread.spoolM === undefined ? null : round(plan.thread.spoolM),
    changes: threadChanges(findings),
    changesBound: findings.work.changesBound,
    spools: reckoning.thread.map(({ thread, needleM, bobbinM, starts }) => ({
      thread,
      bands: bandsIn(thread, findings),
      lineMm: round(lineLength(thread, findings)),
      starts,
      bobbins:
        reckoning.changes.filter(({ start }) => reckoning.stitches[start]!.thread === thread).length + 1,
      needleM: round(needleM),
      bobbinM: round(bobbinM),
      spools: plan.thread.spoolM === undefined ? null : spoolsNeeded(needleM + bobbinM, plan.thread.spoolM),
    })),
    bobbinChanges: reckoning.changes.map(({ at, alongMm, reason }) => ({
      at: roundPoint(at),
      alongMm: round(alongMm),
      where: wherePoint(at, { quilt, units: plan.units }),
      reason: {
        seam: 'in a seam',
        open: 'in the open: no seam was near enough',
        start: 'between two threads',
      }[reason],
    })),
  }
}

/** Where another thread is put in: before which line, and where that begins. */
function threadChanges({ plan, quilt, work: { lines } }: Findings): Report['thread']['changes'] {
  return lines.flatMap((line, i) => {
    const before = lines[i - 1]
    const at = line.parts[0]?.stroke.start
    if (!before || !at || before.thread === line.thread) return []
    return [
      {
        start: i + 1,
        from: before.thread,
        to: line.thread,
        at: roundPoint(at),
        where: wherePoint(at, { quilt, units: plan.units }),
      },
    ]
  })
}

/** The names of the bands, and of the centre, that are stitched with a thread. */
function bandsIn(thread: string, { plan, work: { lines } }: Findings): string[] {
  const parts = lines.filter((line) => line.thread === thread).flatMap((line) => line.parts)
  const bands = new Set(
    parts.flatMap(({ kind, band }) => (kind === 'fill' && band !== undefined ? [band] : [])),
  )
  return [...bands].sort((a, b) => a - b).map((band) => plan.bands[band]?.name ?? 'centre')
}

const lineLength = (thread: string, { work: { lines } }: Findings): number =>
  lines
    .filter((line) => line.thread === thread)
    .reduce(
      (sum, { parts }) => sum + parts.reduce((length, part) => length + strokeLength(part.stroke), 0),
      0,
    )

function gapEntry({ plan, gaps }: Findings): Report['gap'] {
  const { circle, square } = gaps.whole
  return {
    largestMm: round(circle.sizeMm),
    at: placeOf(circle),
    squareMm: round(square.sizeMm),
    squareAt: placeOf(square),
    limitMm: round(plan.batting.limit),
    withinLimit: circle.sizeMm <= plan.batting.limit,
  }
}

function bandEntries(
  { plan, quilt, fits, figures, reckoning, gaps }: Findings,
  { densities }: Evenness,
): Report['bands'] {
  return plan.bands.map((band, index) => {
    const fit = fits.find((f) => f.band === index)
    const stitchedMm = figures.stitchedMm.get(index) ?? 0
    return {
      name: band.name,
      filler: plan.allOver?.name ?? fillerNames(band),
      repeats: fit ? repeatsEntry(fit.repeats, outlineInside(plan, index)) : null,
      stretch: fit ? { min: round(fit.stretch.min), max: round(fit.stretch.max) } : null,
      stitchedMm: round(stitchedMm),
      mmPerCm2: round(densityOf(stitchedMm, openArea(quilt, index))),
      stitches: reckoning.byBand.filter((c) => c.band === index).reduce((sum, c) => sum + c.count, 0),
      ...bandGaps(gaps.bands[index]!),
      ratio: ratioOf(densities.find((d) => d.name === band.name)?.ratio),
      walkingFoot: walkingFootEntry(
        reckoning.walkingFoot.find((check) => check.band === (plan.allOver ? -1 : index)),
      ),
    }
  })
}

function regionEntries({ plan, gaps, regions }: Findings): Report['regions'] {
  return plan.avoid.map(({ name, kind }, index) => {
    const { edgeMm, outlinedMm, roundMm, isOutlined } = regions[index]!
    const circle = gaps.regions[index]!
    return {
      name,
      shape: kind,
      edgeMm: round(edgeMm),
      outlinedMm: round(outlinedMm),
      roundMm: round(roundMm),
      outlined: isOutlined,
      sizeMm: round(circle.sizeMm),
      at: placeOf(circle),
      withinLimit: circle.sizeMm <= plan.batting.limit,
    }
  })
}

/** By name round a rectangle; round any other outline in order, clockwise. */
function repeatsEntry(repeats: readonly number[], outline: OutlineName): Report['bands'][number]['repeats'] {
  if (outline !== 'rectangle') return [...repeats]
  const [top, right, bottom, left] = repeats as [number, number, number, number]
  return { top, right, bottom, left }
}

/** The filler of a band, or those of its sides or patches. */
function fillerNames({ filler, sides, pieced }: Plan['bands'][number]): string | null {
  const bySide = Object.values(sides).flatMap((side) => (side === 'none' ? [] : [side.name]))
  const byPatch = Object.values(pieced?.fillers ?? {}).map(({ name }) => name)
  const names = [...new Set([...(filler ? [filler.name] : []), ...bySide, ...byPatch])]
  return names.length > 0 ? names.join(', ') : null
}

const bandGaps = ({ circle, square }: Gaps) => ({
  gapMm: round(circle.sizeMm),
  gapAt: placeOf(circle),
  squareMm: round(square.sizeMm),
  squareAt: placeOf(square),
})

/** mm of line per cm²; a band without open area has none. */
const densityOf = (lengthMm: number, areaMm2: number): number =>
  areaMm2 > 0 ? (lengthMm / areaMm2) * 100 : 0

/** Where a gap lies, if there is one. */
const placeOf = ({ at }: Gap): [number, number] | null => (Number.isFinite(at[0]) ? roundPoint(at) : null)

/** A density over nothing is no number. */
const ratioOf = (ratio: number | undefined): number | null =>
  ratio !== undefined && Number.isFinite(ratio) ? round(ratio) : null

function walkingFootEntry(check: WalkingFootCheck | undefined): Report['bands'][number]['walkingFoot'] {
  if (!check) return null
  const { verdict, reasons, smallestRadius, pivots, reversals } = check
  const smallestRadiusMm = Number.isFinite(smallestRadius) ? round(smallestRadius) : null
  return { verdict, reasons: [...reasons], smallestRadiusMm, pivots, reversals }
}

function warningsOf(findings: Findings, { bands, choices }: Pick<Report, 'bands' | 'choices'>): Warning[] {
  const { plan, work } = findings
  const warnings: Warning[] = []
  const limit = plan.batting.limit
  const length = (mm: number) => lengthText(mm, plan.units)
  if (work.lines.length > work.changes + 1) {
    warnings.push({
      code: 'route/second-start',
      at: '',
      message: `${work.lines.length} thread starts${work.changes > 0 ? ` with ${work.changes + 1} threads in turn` : ''}: ${work.frame ? 'the strips of a frame cut the line' : 'the quilted parts do not meet'}`,
    })
  }
  const overLimit = choices?.overLimit ?? []
  const whyOf = (at: string) => {
    const why = overLimit.find((over) => over.at === at)?.why
    return why === undefined ? '' : `: ${why}`
  }
  bands.forEach((band, index) => {
    const at = band.name
    if (band.stretch && (band.stretch.min < 1 - STRETCH_WARNING || band.stretch.max > 1 + STRETCH_WARNING)) {
      warnings.push({
        code: 'motif/stretched',
        at,
        message: `repeats are ${percent(band.stretch.min)} to ${percent(band.stretch.max)} of their nominal length`,
      })
    }
    if (findings.gaps.bands[index]!.circle.sizeMm > limit) {
      warnings.push({
        code: 'check/gap',
        at,
        message: `a gap of ${length(band.gapMm ?? 0)} is more than the batting's limit of ${length(limit)}${whyOf(band.name)}`,
      })
    }
  })
  warnings.push(...regionWarnings(findings))
  const isCentreOpen =
    !plan.centre.filler &&
    !plan.allOver &&
    (plan.centre.across ?? Math.min(plan.centre.width, plan.centre.height)) > limit
  const across = isCentreOpen ? undefined : acrossSeams(overLimit)
  if (across) {
    const message = `a gap of ${length(across.gapMm)} across a seam is more than the batting's limit of ${length(limit)}: ${across.why}`
    warnings.push({ code: 'check/gap', at: '', message })
  }
  if (isCentreOpen) {
    warnings.push({
      code: 'check/centre-open',
      at: 'centre',
      message: `the centre is not quilted by this plan; the batting asks for lines no more than ${length(limit)} apart`,
    })
  }
  return warnings
}

/** What a quilter must know of the regions that are kept free, and of the bands that they cover. */
function regionWarnings({ plan, gaps, regions, figures }: Findings): Warning[] {
  const { limit } = plan.batting
  const length = (mm: number) => lengthText(mm, plan.units)
  const warnings: Warning[] = []
  plan.avoid.forEach(({ name, outline }, i) => {
    const at = `avoid[${i}]`
    const { sizeMm } = gaps.regions[i]!
    const { edgeMm, isOutlined } = regions[i]!
    if (sizeMm > limit) {
      const message = `${name} is ${length(sizeMm)} across and nothing is stitched in it; the batting asks for lines no more than ${length(limit)} apart, so it needs stitching of its own`
      warnings.push({ code: 'check/region-open', at, message })
    }
    if (edgeMm > 0 && outline === 'whole' && !isOutlined) {
      const message = `no line can get to the edge of ${name} without crossing open cloth: it is not stitched round`
      warnings.push({ code: 'route/region-unreached', at, message })
    }
  })
  plan.bands.forEach((band, i) => {
    if (plan.avoid.length === 0 || !isQuilted(band) || (figures.stitchedMm.get(i) ?? 0) > 0) return
    const message = 'nothing is stitched in it: the regions to stay out of leave nothing of its filler'
    warnings.push({ code: 'avoid/band-covered', at: band.name, message })
  })
  return warnings
}

/** A gap is as large as another if it differs by less, mm. */
const AS_LARGE = 0.5

/** The largest gap of the quilt, if it is past the limit and no gap of a band or of the centre alone. */
function acrossSeams(overLimit: NonNullable<Report['choices']>['overLimit']) {
  const whole = overLimit.find(({ at }) => at === 'quilt')
  const isOne = overLimit.some(({ at, gapMm }) => at !== 'quilt' && gapMm > (whole?.gapMm ?? 0) - AS_LARGE)
  return isOne ? undefined : whole
}

/** The bands that are quilted, each against the one inside it. */
function evennessOf({ plan, quilt, figures }: Findings): Evenness {
  const quilted = plan.bands
    .flatMap((band, index) =>
      plan.allOver || isQuilted(band)
        ? [{ name: band.name, lengthMm: figures.stitchedMm.get(index) ?? 0, areaMm2: openArea(quilt, index) }]
        : [],
    )
    .filter(({ areaMm2 }) => areaMm2 > 0)
  return measureEvenness(quilted)
}

/** What the quilt may measure after its first wash. */
function washedEntry({ plan, quilt }: Findings): Report['washed'] {
  const most = plan.batting.shrinkage
  const least = Math.min(most, BATTINGS[plan.batting.kind as BattingKind]?.shrinkage[0] ?? 0)
  const range = (mm: number): [number, number] => {
    const [small, large] = afterWash(mm, { shrinkage: [least, most] })
    return [round(small), round(large)]
  }
  return {
    batting: plan.batting.kind,
    shrinkage: [least, most],
    widthMm: range(quilt.widthMm),
    heightMm: range(quilt.heightMm),
  }
}

const percent = (ratio: number): string => `${Math.round(ratio * 100)} %`
