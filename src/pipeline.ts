import { fillersOf, layOutPlan } from './engine-input.ts'
import type { Problem } from './error.ts'
import type { Drawing } from './export/drawing.ts'
import { areaOrders } from './pieces/areas.ts'
import { lapOrders } from './pieces/lap-orders.ts'
import { type Net, tieNet } from './pieces/net.ts'
import { cutPieces, type Pieces } from './pieces/pieces.ts'
import { placeVertex, type WantedPlace } from './pieces/place-vertex.ts'
import { routeGraph } from './pieces/route-graph.ts'
import { threadLine } from './pieces/thread-line.ts'
import type { Catalog } from './plan/catalog.ts'
import type { Place, Plan } from './plan/plan.ts'
import { readPlan } from './plan/read-plan.ts'
import type { Quilt } from './quilt/quilt.ts'
import { buildReport } from './report/build-report.ts'
import { listExtras } from './report/extras.ts'
import { findGaps } from './report/find-gaps.ts'
import { measureLines } from './report/measure-line.ts'
import { type Reckoning, reckonLines } from './report/reckon.ts'
import type { Report } from './report/report.ts'
import { lowerBound, type RouteGraph, type RouteResult, solveByAreas } from './route/index.ts'

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
  const { plan, warnings } = readPlan(text, catalog)
  return planQuilt(plan, { catalog, warnings })
}

/** A quilt with its fillers fitted, cut at their touches: what the way leads through. */
export interface FilledQuilt {
  readonly plan: Plan
  readonly quilt: Quilt
  readonly pieces: Pieces
  /** What the measures of the real quilt say. */
  readonly findings: readonly Problem[]
}

/** A quilt with its line, before anything is reckoned: what a first picture needs. */
export interface ThreadedQuilt extends FilledQuilt {
  readonly net: Net
  readonly graph: RouteGraph
  readonly route: RouteResult
  readonly drawing: Drawing
}

/** Plans a quilt: lay it out, fit the fillers, find the way, thread the line, reckon what it takes. */
export function planQuilt(
  plan: Plan,
  { catalog, warnings = [] }: { catalog: Catalog; warnings?: readonly Problem[] },
): PlannedQuilt {
  const threaded = threadQuilt(fillQuilt(plan, catalog), catalog)
  return reckonQuilt(threaded, warnings)
}

/** Lays the quilt out and fits the fillers. */
export function fillQuilt(plan: Plan, catalog: Catalog): FilledQuilt {
  const { quilt, findings } = layOutPlan(plan)
  const { reach } = plan.machine
  return {
    plan,
    quilt,
    findings,
    pieces: cutPieces(quilt, fillersOf(plan, catalog.motifs), { reach, seed: plan.seed }),
  }
}

/** Finds the way through the pieces and threads the line along it. */
export function threadQuilt(filled: FilledQuilt, catalog: Catalog): ThreadedQuilt {
  const { plan, quilt, pieces } = filled
  const net = tieNet(quilt, pieces)
  const graph = routeGraph(net, pieces)
  const orders = ordersOf(plan, { quilt, pieces, net })
  const route = solveByAreas(graph, {
    plans: orders,
    seed: plan.seed,
    ...endsOf(plan, { quilt, pieces, net }),
  })
  const drawing: Drawing = {
    title: plan.title,
    quilt,
    lines: route.walks.map((walk) => threadLine(walk.steps, { pieces, net, thread: plan.thread.colour })),
    areaCount: orders[route.plan]?.length ?? 0,
    units: plan.units,
    spm: plan.machine.speed,
    stitchLengthMm: plan.stitch.length,
    fillers: plan.bands.map((band) =>
      band.filler ? catalog.motifs[band.filler.name]!.title.toLowerCase() : patchFillersText(band),
    ),
  }
  return { ...filled, net, graph, route, drawing }
}

/** Measures the line and reckons what it takes. */
export function reckonQuilt(threaded: ThreadedQuilt, warnings: readonly Problem[] = []): PlannedQuilt {
  const { plan, quilt, pieces, net, graph, route, drawing } = threaded
  const figures = measureLines(drawing.lines, plan.machine.reach)
  const reckoning = reckonLines(drawing.lines, plan, { repositions: figures.repositions.length })
  const report = buildReport({
    plan,
    quilt,
    fits: pieces.fits,
    route,
    lowerBoundMm:
      net.fills.reduce((sum, fill) => sum + fill.length, 0) +
      lowerBound(graph, { prices: { travel: 1, overlap: 1 } }).cost,
    extras: listExtras(drawing.lines, { overlaps: figures.overlaps, quilt }),
    areas: drawing.areaCount,
    figures,
    reckoning,
    gaps: findGaps(figures.polylines, quilt),
    warnings: [...warnings, ...threaded.findings],
  })
  return { plan, quilt, drawing, reckoning, report }
}

interface Tied {
  readonly quilt: Quilt
  readonly pieces: Pieces
  readonly net: Net
}

/** The orders of work that the plan allows. */
function ordersOf({ route }: Plan, { quilt, pieces, net }: Tied) {
  return route.work === 'laps'
    ? lapOrders({ pieces, net, quilt }, route.order)
    : areaOrders(pieces, net, route.order)
}

/** The vertices where the plan wants the line to begin and end, if it does. */
function endsOf(plan: Plan, tied: Tied): { start?: number; end?: number } {
  const start = placeVertex(wantedPlace(plan.route.start, plan), tied, 'route.start')
  const end = placeVertex(wantedPlace(plan.route.end, plan), tied, 'route.end')
  return { ...(start !== undefined && { start }), ...(end !== undefined && { end }) }
}

const wantedPlace = (place: Place, { bands }: Plan): WantedPlace =>
  place.kind === 'side' ? { ...place, band: bands.findIndex(({ name }) => name === place.band) } : place

/** What fills a band's patches, in words. */
function patchFillersText({ pieced }: Plan['bands'][number]): string {
  const names = new Set(Object.values(pieced?.fillers ?? {}).map(({ name }) => name.replaceAll('-', ' ')))
  return names.size > 0 ? [...names].join(' and ') : 'nothing'
}
