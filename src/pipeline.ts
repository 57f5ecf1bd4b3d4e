import { type Choices, choosePlan, isOpen } from './choose/choose-plan.ts'
import {
  allOverOf,
  allOverWorkOf,
  bandThreads,
  centreFillOf,
  fillersOf,
  layOutPlan,
  reachOf,
  sectorOf,
  wishesOf,
} from './engine-input.ts'
import { PlanError, type Problem } from './error.ts'
import { refuseTooMuch } from './estimate-work.ts'
import type { Drawing } from './export/drawing.ts'
import { allOverPieces } from './pieces/all-over.ts'
import { avoidRegions } from './pieces/avoid-regions.ts'
import { withCentre } from './pieces/centre-piece.ts'
import { oddPlaces } from './pieces/odd-places.ts'
import { cutPieces, type Pieces } from './pieces/pieces.ts'
import { type PlannedLines, planThreads, type ThreadedTask } from './pieces/plan-threads.ts'
import type { Catalog } from './plan/catalog.ts'
import { withDrawnMotifs } from './plan/drawn-catalog.ts'
import type { Plan } from './plan/plan.ts'
import { type PlanRead, readPlan } from './plan/read-plan.ts'
import { type Quilt, wholeCloth } from './quilt/quilt.ts'
import { buildReport } from './report/build-report.ts'
import { drawnFigures, swatchesOf } from './report/drawn-figures.ts'
import { listExtras } from './report/extras.ts'
import { findGaps, type GapTask, gapRegions, type QuiltGaps } from './report/find-gaps.ts'
import { chordsOf, type LineFigures, measureLines } from './report/measure-line.ts'
import { needlePoints } from './report/needle-points.ts'
import { type Handling, type Reckoning, reckonLines } from './report/reckon.ts'
import { regionFigures } from './report/region-figures.ts'
import type { Report } from './report/report.ts'
import { countOverBands, spreadOverBands } from './report/spread-over-bands.ts'
import { traceStrips } from './report/trace-strips.ts'
import { lowerBound } from './route/index.ts'

/** A quilt with its fillers fitted, cut at their touches: what the way leads through. */
export interface FilledQuilt {
  readonly plan: Plan
  readonly quilt: Quilt
  /** The fillers before they are cut at the regions to stay out of. */
  readonly whole: Pieces
  readonly pieces: Pieces
  /** The choices that the plan left open, made. */
  readonly choices?: Choices
  /** What the measures of the real quilt say. */
  readonly findings: readonly Problem[]
}

/** A quilt with its line, before anything is reckoned: what a first picture needs. */
export interface ThreadedQuilt extends FilledQuilt {
  readonly line: PlannedLines
  readonly drawing: Drawing
}

/** A quilt with its line measured, and what it takes. */
export interface ReckonedQuilt extends ThreadedQuilt {
  readonly figures: LineFigures
  readonly reckoning: Reckoning
}

/** A plan carried through: the quilt, its line, its figures, and all that an output needs. */
export interface PlannedQuilt {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly drawing: Drawing
  readonly reckoning: Reckoning
  readonly report: Report
}

/**
 * Plans a quilt from a plan file's text.
 *
 * @throws PlanError with every problem of the file
 */
export function planFromText(text: string, catalog: Catalog): PlannedQuilt {
  const { plan, warnings, locate } = acceptPlan(text, catalog)
  return withPlaces(locate, () => planQuilt(plan, { catalog, warnings }))
}

/**
 * The plan that a file's text gives, if the planner can do all that it asks.
 *
 * @throws PlanError with every problem of the file
 */
export function acceptPlan(text: string, catalog: Catalog): PlanRead {
  const read = readPlan(text, catalog)
  const refused = refuseTooMuch(read.plan, catalog)
  if (refused.length > 0) throw new PlanError(refused.map(read.locate))
  return read
}

/** Problems found while planning name a key of the plan; here they get their place in the file. */
export function withPlaces<T>(locate: PlanRead['locate'], work: () => T): T {
  try {
    return work()
  } catch (error) {
    if (!(error instanceof PlanError)) throw error
    throw new PlanError(
      error.problems.map((problem) => (problem.at && !problem.position ? locate(problem) : problem)),
    )
  }
}

/** Plans a quilt: lay it out and fit the fillers, find the way and thread the line, reckon what it takes, tell it. */
export function planQuilt(
  plan: Plan,
  { catalog, warnings = [] }: { catalog: Catalog; warnings?: readonly Problem[] },
): PlannedQuilt {
  const filled = fillQuilt(plan, catalog)
  const threaded = threadQuilt(filled, catalog)
  const gapTask = gapTaskOf(threaded)
  const reckoned = reckonQuilt(threaded, gapTask)
  return tellQuilt(reckoned, { gaps: findGaps(gapTask), warnings })
}

/**
 * The same, with the gaps looked for elsewhere meanwhile: no other step is as long that nothing waits for.
 *
 * @throws PlanError with every problem of the file
 */
export async function planWithGaps(
  text: string,
  { catalog, search }: { catalog: Catalog; search: (task: GapTask) => Promise<QuiltGaps> },
): Promise<PlannedQuilt> {
  const { plan, warnings, locate } = acceptPlan(text, catalog)
  const threaded = withPlaces(locate, () => threadQuilt(fillQuilt(plan, catalog), catalog))
  const gapTask = gapTaskOf(threaded)
  const gaps = search(gapTask)
  const reckoned = reckonQuilt(threaded, gapTask)
  return tellQuilt(reckoned, { gaps: await gaps, warnings })
}

/** Makes the choices that the plan leaves open, lays the quilt out, fits the fillers and cuts them at their touches. */
export function fillQuilt(plan: Plan, catalog: Catalog): FilledQuilt {
  const laid = layOutPlan(plan)
  const fill = (settled: Plan) => ({ plan: settled, ...laid, ...fitFillers(settled, laid.quilt, catalog) })
  if (!isOpen(plan)) return fill(plan)
  const { filled, choices } = choosePlan(plan, {
    catalog: withDrawnMotifs(catalog, plan.motifs),
    quilt: laid.quilt,
    fill,
  })
  return { ...filled, choices }
}

/** Fits the fillers into a quilt that is laid out, cuts them at their touches, and at the regions to stay out of. */
export function fitFillers(
  plan: Plan,
  quilt: Quilt,
  catalog: Catalog,
): Pick<FilledQuilt, 'whole' | 'pieces'> {
  const allOver = allOverOf(plan, catalog)
  if (allOver) {
    const pieces = allOverPieces(quilt, allOver, allOverWorkOf(plan))
    return { whole: pieces, pieces }
  }
  const fillers = fillersOf(plan, catalog)
  const bands = cutPieces(quilt, fillers, {
    reach: reachOf(plan),
    seed: plan.seed,
    threads: bandThreads(plan),
  })
  const fill = centreFillOf(plan, catalog)
  const whole = fill ? withCentre(bands, quilt, { fill, seed: plan.seed }) : bands
  return { whole, pieces: avoidRegions(whole, quilt) }
}

/** Finds the way through the pieces and threads the line along it. */
export const threadQuilt = (filled: FilledQuilt, catalog: Catalog): ThreadedQuilt =>
  drawQuilt(filled, planThreads(lineTaskOf(filled)), catalog)

/** The quilt with its line as a drawing. */
export function drawQuilt(filled: FilledQuilt, line: PlannedLines, catalog: Catalog): ThreadedQuilt {
  const { plan, quilt } = filled
  const { motifs } = withDrawnMotifs(catalog, plan.motifs)
  const drawing: Drawing = {
    title: plan.title,
    quilt,
    lines: line.lines,
    areaCount: line.areaCount,
    units: plan.units,
    spm: plan.machine.speed,
    stitchLengthMm: plan.stitch.length,
    ...(line.frame && { passes: line.frame.areasOf }),
    ...(plan.allOver && { allOver: fillerWords(plan.allOver.name) }),
    fillers: plan.bands.map((band) =>
      band.filler ? motifs[band.filler.name]!.title.toLowerCase() : patchFillersText(band),
    ),
  }
  return { ...filled, line, drawing }
}

/** What the largest gaps are found from. */
export const gapTaskOf = ({ line, quilt }: ThreadedQuilt): GapTask => ({
  chords: chordsOf(line.lines),
  rings: quilt.rings,
  ...(quilt.regions && { regions: gapRegions(quilt.regions, regionFigures(line.lines, quilt)) }),
})

/** Measures the line and reckons what it takes. */
export function reckonQuilt(threaded: ThreadedQuilt, { chords }: GapTask): ReckonedQuilt {
  const { plan, line } = threaded
  const figures = measureLines(line.lines, { reach: plan.machine.reach, sector: sectorOf(plan), chords })
  const reckoning = reckonLines(line.lines, plan, handlingOf(line, figures))
  if (!plan.allOver) return { ...threaded, figures, reckoning }
  const { quilt } = threaded
  const stitchedMm = spreadOverBands(chords, quilt)
  const byBand = countOverBands(reckoning.stitches, quilt, stitchedMm)
  return { ...threaded, figures: { ...figures, stitchedMm }, reckoning: { ...reckoning, byBand } }
}

/** Puts all figures into the report, and what a picture shows of them into the drawing. */
export function tellQuilt(
  { plan, quilt, pieces, whole, line, drawing, findings, figures, reckoning, choices }: ReckonedQuilt,
  { gaps, warnings }: { gaps: QuiltGaps; warnings: readonly Problem[] },
): PlannedQuilt {
  const report = buildReport({
    plan,
    quilt,
    fits: pieces.fits,
    work: line,
    lowerBoundMm: shortestOf(line),
    extras: listExtras(line.lines, {
      overlaps: figures.overlaps,
      quilt,
      units: plan.units,
      isOdd: oddIn(line),
    }),
    figures,
    reckoning,
    gaps,
    regions: regionFigures(line.lines, quilt),
    warnings: [...warnings, ...findings],
    ...(choices && { choices }),
  })
  return {
    plan,
    quilt,
    drawing: withFigures(drawing, { plan, pieces: whole, report, reckoning }),
    reckoning,
    report,
  }
}

/** The drawing with what was reckoned. Needle points, strips and swatches are made when they are asked for: most outputs need neither. */
function withFigures(
  drawing: Drawing,
  {
    plan,
    pieces,
    report,
    reckoning,
  }: Pick<PlannedQuilt, 'plan' | 'report' | 'reckoning'> & { pieces: Pieces },
): Drawing {
  let needles: Drawing['stitches']
  let swatches: Drawing['swatches']
  let strips: Drawing['strips']
  return {
    ...drawing,
    ...drawnFigures(report),
    get stitches() {
      needles ??= reckoning.stitches.map(needlePoints)
      return needles
    },
    get strips() {
      strips ??= traceStrips(drawing.quilt, pieces)
      return strips
    },
    get swatches() {
      swatches ??= swatchesOf(plan, drawing.quilt)
      return swatches
    },
  }
}

/** On a frame the quilt is rolled on from pass to pass, and not moved otherwise. */
const handlingOf = ({ frame, changes }: PlannedLines, { repositions, turns }: LineFigures): Handling => ({
  ...(frame
    ? { repositions: 0, advances: frame.passes.length - 1 }
    : { repositions: repositions.length, advances: 0 }),
  threadChanges: changes,
  turns,
})

/** What the line is planned over, and what the plan asks of its way. */
export const lineTaskOf = ({ plan, quilt, pieces }: FilledQuilt): ThreadedTask => ({
  quilt: plan.allOver ? wholeCloth(quilt) : quilt,
  pieces,
  reach: reachOf(plan),
  wishes: wishesOf(plan),
  thread: plan.thread.colour,
  bandThreads: bandThreads(plan),
  seed: plan.seed,
})

/** No line over the same pieces with as few starts as there must be is shorter, mm. */
const shortestOf = ({ works }: PlannedLines): number =>
  works.reduce((sum, { graph }) => {
    const required = graph.edges.reduce((length, edge) => length + (edge.required ? edge.length : 0), 0)
    // Here a second pass costs its length, whatever it costs where the way is chosen.
    const edges = graph.edges.map(({ price: _, ...edge }) => edge)
    return sum + required + lowerBound({ ...graph, edges }, { prices: { travel: 1, overlap: 1 } }).cost
  }, 0)

/** Tells of a place whether an odd number of an area's required edges end there. */
function oddIn({ works }: PlannedLines): ReturnType<typeof oddPlaces> {
  const odd = works.map(({ graph, areas }) => oddPlaces(graph, areas))
  return (at, area) => {
    const i = works.filter(({ firstArea }) => firstArea <= area).length - 1
    return odd[i]?.(at, area - works[i]!.firstArea) ?? false
  }
}

const fillerWords = (name: string): string => name.replaceAll('-', ' ')

/** What fills a band's patches, in words. */
function patchFillersText({ pieced }: Plan['bands'][number]): string {
  const names = new Set(Object.values(pieced?.fillers ?? {}).map(({ name }) => fillerWords(name)))
  return names.size > 0 ? [...names].join(' and ') : 'nothing'
}
