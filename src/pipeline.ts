import type { Problem } from './error.ts'
import type { Drawing } from './export/drawing.ts'
import type { Motif } from './motif/contract.ts'
import type { Filler } from './motif/draw-stretch.ts'
import { areaOrders } from './pieces/areas.ts'
import { tieNet } from './pieces/net.ts'
import { cutPieces } from './pieces/pieces.ts'
import { routeGraph } from './pieces/route-graph.ts'
import { threadLine } from './pieces/thread-line.ts'
import type { FillerChoice, Plan } from './plan/plan.ts'
import { readPlan } from './plan/read-plan.ts'
import type { Catalog } from './plan/settle-plan.ts'
import { layOutQuilt } from './quilt/layout.ts'
import type { Quilt } from './quilt/quilt.ts'
import { buildReport } from './report/build-report.ts'
import { drawnFigures, swatchesOf } from './report/drawn-figures.ts'
import { listExtras } from './report/extras.ts'
import { findGaps } from './report/find-gaps.ts'
import { measureLines } from './report/measure-line.ts'
import { needlePoints } from './report/needle-points.ts'
import { reckonLines } from './report/reckon.ts'
import type { Report } from './report/report.ts'
import { lowerBound, solveByAreas } from './route/index.ts'

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
  const { reach } = plan.machine
  const quilt = layOutPlan(plan)
  const pieces = cutPieces(quilt, fillersOf(plan, catalog.motifs), { reach, seed: plan.seed })
  const net = tieNet(quilt, pieces)
  const graph = routeGraph(net, pieces)
  const orders = areaOrders(pieces, net)
  const route = solveByAreas(graph, { plans: orders, seed: plan.seed })
  const lines = route.walks.map((walk) => threadLine(walk.steps, { pieces, net, thread: plan.thread.colour }))
  const figures = measureLines(lines, reach)
  const reckoning = reckonLines(lines, plan, movesOf(plan, figures.repositions.length))
  const report = buildReport({
    plan,
    quilt,
    fits: pieces.fits,
    route,
    lowerBoundMm:
      net.fills.reduce((sum, fill) => sum + fill.length, 0) +
      lowerBound(graph, { prices: { travel: 1, overlap: 1 } }).cost,
    extras: listExtras(lines, { overlaps: figures.overlaps, quilt, units: plan.units }),
    areas: orders[route.plan]?.length ?? 0,
    figures,
    reckoning,
    gaps: findGaps(figures.polylines, quilt),
    warnings,
  })
  let needles: Drawing['stitches']
  let swatches: Drawing['swatches']
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
    ...drawnFigures(report),
    // Made when they are asked for: most outputs need neither.
    get stitches() {
      needles ??= reckoning.stitches.map(needlePoints)
      return needles
    },
    get swatches() {
      swatches ??= swatchesOf(plan, quilt)
      return swatches
    },
  }
  return { plan, quilt, drawing, report }
}

/** Lays a plan out as geometry. */
export function layOutPlan(plan: Plan): Quilt {
  const cloth = (fabric: Plan['centre']['fabric']) => fabric[0]?.colour ?? '#ffffff'
  return layOutQuilt({
    centre: { width: plan.centre.width, height: plan.centre.height, fabric: cloth(plan.centre.fabric) },
    bands: plan.bands.map((band) => ({ ...band, fabric: cloth(band.fabric) })),
    binding: plan.binding,
  })
}

/** On a frame every move of the quilt is an advance of its rollers. */
const movesOf = ({ machine }: Plan, moves: number) =>
  machine.kind === 'frame' ? { repositions: 0, advances: moves } : { repositions: moves, advances: 0 }

/** The filler of each band as the engine needs it: the motif itself and its values. */
function fillersOf(plan: Plan, motifs: Readonly<Record<string, Motif>>): (Filler | undefined)[] {
  const asFiller = ({ name, values }: FillerChoice): Filler => ({ name, motif: motifs[name]!, values })
  return plan.bands.map((band) => band.filler && asFiller(band.filler))
}
