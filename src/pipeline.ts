import type { Problem } from './error.ts'
import type { Drawing } from './export/drawing.ts'
import type { Motif } from './motif/contract.ts'
import type { Filler } from './motif/draw-stretch.ts'
import { cutPieces } from './pieces/pieces.ts'
import type { WantedPlace } from './pieces/place-vertex.ts'
import { type LineTask, planLine, type Wishes } from './pieces/plan-line.ts'
import type { FillerChoice, Place, Plan } from './plan/plan.ts'
import { readPlan } from './plan/read-plan.ts'
import type { Catalog } from './plan/settle-plan.ts'
import { layOutQuilt } from './quilt/layout.ts'
import type { Quilt } from './quilt/quilt.ts'
import { buildReport } from './report/build-report.ts'
import { listExtras } from './report/extras.ts'
import { findGaps } from './report/find-gaps.ts'
import { measureLines } from './report/measure-line.ts'
import { reckonLines } from './report/reckon.ts'
import type { Report } from './report/report.ts'
import { lowerBound } from './route/index.ts'

/** A plan carried through: the quilt, its line, its figures, and all that an output needs. */
export interface PlannedQuilt {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly drawing: Drawing
  readonly report: Report
}

/**
 * Plans a quilt from a plan file's text.
 *
 * @throws PlanError with every problem of the file
 */
export function planFromText(text: string, catalog: Catalog): PlannedQuilt {
  const { plan, warnings } = readPlan(text, catalog)
  return planQuilt(plan, { catalog, warnings })
}

/** Plans a quilt: lay it out, fit the fillers, find the way, thread the line, reckon what it takes. */
export function planQuilt(
  plan: Plan,
  { catalog, warnings = [] }: { catalog: Catalog; warnings?: readonly Problem[] },
): PlannedQuilt {
  const task = lineTaskOf(plan, catalog)
  const { quilt, pieces } = task
  const { net, graph, areas, route, lines } = planLine(task)
  const figures = measureLines(lines, plan.machine.reach)
  const reckoning = reckonLines(lines, plan, { repositions: figures.repositions.length })
  const report = buildReport({
    plan,
    quilt,
    fits: pieces.fits,
    route,
    lowerBoundMm:
      net.fills.reduce((sum, fill) => sum + fill.length, 0) +
      lowerBound(graph, { prices: { travel: 1, overlap: 1 } }).cost,
    extras: listExtras(lines, { overlaps: figures.overlaps, quilt }),
    areas: areas.length,
    figures,
    reckoning,
    gaps: findGaps(figures.polylines, quilt),
    warnings,
  })
  const drawing: Drawing = {
    title: plan.title,
    quilt,
    lines,
    areaCount: report.line.areas,
    units: plan.units,
    spm: plan.machine.speed,
    stitchLengthMm: plan.stitch.length,
    fillers: plan.bands.map((band) =>
      band.filler ? catalog.motifs[band.filler.name]!.title.toLowerCase() : 'nothing',
    ),
  }
  return { plan, quilt, drawing, report }
}

/** The quilt laid out, its fillers fitted, and what the plan asks of the line's way. */
export function lineTaskOf(plan: Plan, { motifs }: Catalog): LineTask {
  const { reach } = plan.machine
  const quilt = layOutPlan(plan)
  return {
    quilt,
    pieces: cutPieces(quilt, fillersOf(plan, motifs), { reach, seed: plan.seed }),
    reach,
    wishes: wishesOf(plan),
    thread: plan.thread.colour,
    seed: plan.seed,
  }
}

function wishesOf(plan: Plan): Wishes {
  const { start, end, order, work } = plan.route
  return { start: wantedPlace(start, plan), end: wantedPlace(end, plan), order, work }
}

const wantedPlace = (place: Place, { bands }: Plan): WantedPlace =>
  place.kind === 'side' ? { ...place, band: bands.findIndex(({ name }) => name === place.band) } : place

function layOutPlan(plan: Plan): Quilt {
  const cloth = (fabric: Plan['centre']['fabric']) => fabric[0]?.colour ?? '#ffffff'
  return layOutQuilt({
    centre: { width: plan.centre.width, height: plan.centre.height, fabric: cloth(plan.centre.fabric) },
    bands: plan.bands.map((band) => ({ ...band, fabric: cloth(band.fabric) })),
    binding: plan.binding,
  })
}

/** The filler of each band as the engine needs it: the motif itself and its values. */
function fillersOf(plan: Plan, motifs: Readonly<Record<string, Motif>>): (Filler | undefined)[] {
  const asFiller = ({ name, values }: FillerChoice): Filler => ({ name, motif: motifs[name]!, values })
  return plan.bands.map((band) => band.filler && asFiller(band.filler))
}
