import { reachOf, sectorOf } from './engine-input.ts'
import { planThreads } from './pieces/plan-threads.ts'
import { fillQuilt, lineTaskOf } from './pipeline.ts'
import type { Catalog } from './plan/catalog.ts'
import { STRIP_OVERLAP } from './plan/defaults.ts'
import type { DitchSeam, Plan } from './plan/plan.ts'
import { measureLines } from './report/measure-line.ts'
import { reckonLines } from './report/reckon.ts'
import { chooseStrategy, type StrategyFigures } from './report/strategies.ts'
import type { Way } from './report/way-names.ts'

/** Strategies for one quilt side by side, the one to take, and why. */
export interface Comparison {
  readonly title: string
  readonly units: Plan['units']
  readonly strategies: readonly StrategyFigures[]
  /** Index of the strategy to take. */
  readonly choice: number
  readonly why: string
}

const WAYS: readonly Way[] = ['areas', 'laps', 'frame']

/**
 * Plans a quilt area by area, lap by lap and by frame passes, each without and with ditch stitching (the seams that the
 * plan asks for, or else all seams between bands), and chooses for the plan's machine.
 *
 * @param onStep  is told what comes next
 */
export function compareStrategies(
  plan: Plan,
  catalog: Catalog,
  onStep: (what: string) => void = () => undefined,
): Comparison {
  const asked = plan.route.ditch
  const rings = plan.bands.map((_, band): DitchSeam => ({ kind: 'ring', band }))
  // One filler over the whole quilt knows no laps and no seams.
  const ways = plan.allOver ? WAYS.filter((way) => way !== 'laps') : WAYS
  const ditches = plan.allOver ? [[]] : [[], asked.length > 0 ? asked : rings]
  const strategies = ways.flatMap((way) =>
    ditches.map((ditch) => {
      onStep(way)
      return tryStrategy(asPlanned(plan, way, ditch), catalog, { way, ditch: ditch.length > 0 })
    }),
  )
  const wanted = {
    isFrame: plan.machine.kind === 'frame',
    ditch: asked.length > 0,
    turning: plan.route.turning,
  }
  return { title: plan.title, units: plan.units, strategies, ...chooseStrategy(strategies, wanted) }
}

/** The plan changed so that it is worked in this way. */
function asPlanned(plan: Plan, way: Way, ditch: readonly DitchSeam[]): Plan {
  const { machine } = plan
  const throat = machine.throat ?? machine.reach[1]
  const strip = way === 'frame' ? { throat, overlap: machine.overlap ?? STRIP_OVERLAP * throat } : NO_STRIP
  return {
    ...plan,
    machine: { ...machine, kind: way === 'frame' ? 'frame' : 'domestic', ...strip },
    route: {
      ...plan.route,
      // A frame works from top to bottom, whatever else is asked.
      ...(way === 'frame' && plan.machine.kind !== 'frame' && FREE),
      ditch,
      work: way === 'laps' ? 'laps' : 'areas',
    },
  }
}

const FREE = { start: { kind: 'anywhere' }, end: { kind: 'anywhere' }, order: 'any' } as const
const NO_STRIP = { throat: undefined, overlap: undefined }

function tryStrategy(
  plan: Plan,
  catalog: Catalog,
  { way, ditch }: { way: Way; ditch: boolean },
): StrategyFigures {
  const { lines, frame, startsBound, changes } = planThreads(lineTaskOf(fillQuilt(plan, catalog)))
  const figures = measureLines(lines, { reach: reachOf(plan), sector: sectorOf(plan) })
  const moves = frame ? frame.passes.length - 1 : figures.repositions.length
  const work = {
    repositions: frame ? 0 : moves,
    advances: frame ? moves : 0,
    threadChanges: changes,
    turns: figures.turns,
  }
  const { thread, time } = reckonLines(lines, plan, work)
  return {
    way,
    ditch,
    starts: lines.length,
    startsBound: frame?.startsBound ?? startsBound,
    overlapMm: figures.overlapMm,
    travelMm: figures.travelMm,
    moves,
    turns: figures.turns,
    minutes: time.minutes,
    threadM: thread.reduce((sum, { needleM, bobbinM }) => sum + needleM + bobbinM, 0),
  }
}
