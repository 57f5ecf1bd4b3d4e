import { lengthText, longLengthText } from '../export/labels.ts'
import { ROUTE_WEIGHTS } from '../route/index.ts'
import { durationText } from './summary.ts'
import { WAY_NAMES, type Way } from './way-names.ts'

/** What one strategy takes. */
export interface StrategyFigures {
  readonly way: Way
  /** With seams stitched in the ditch. */
  readonly ditch: boolean
  readonly starts: number
  /** No work in this way has fewer starts. */
  readonly startsBound: number
  readonly overlapMm: number
  readonly travelMm: number
  /** Moves of the quilt under a domestic machine, or advances of a frame. */
  readonly moves: number
  /** How much the quilt is turned with a foot that feeds forward only, full turns. */
  readonly turns: number
  readonly minutes: number
  /** Needle and bobbin thread with waste, m. */
  readonly threadM: number
}

export const strategyName = ({ way, ditch }: StrategyFigures): string =>
  `${WAY_NAMES[way]}${ditch ? ', with ditch' : ''}`

/** What a strategy costs by the route's weights: mm of travel. */
const costOf = ({ starts, overlapMm, travelMm, moves, turns }: StrategyFigures, turning: number): number =>
  ROUTE_WEIGHTS.start * starts +
  ROUTE_WEIGHTS.overlap * overlapMm +
  ROUTE_WEIGHTS.reposition * (moves + turning * turns) +
  ROUTE_WEIGHTS.travel * travelMm

/** The cheapest strategy for the machine, with or without ditch stitching as the plan asks, and what speaks for it. */
export function chooseStrategy(
  strategies: readonly StrategyFigures[],
  wanted: { readonly isFrame: boolean; readonly ditch: boolean; readonly turning: number },
): { readonly choice: number; readonly why: string } {
  const rivals = strategies.filter(
    ({ way, ditch }) => (way === 'frame') === wanted.isFrame && ditch === wanted.ditch,
  )
  const [best, next] = [...rivals].sort((a, b) => costOf(a, wanted.turning) - costOf(b, wanted.turning))
  const asked = wanted.ditch ? 'with the seams that the plan asks for' : 'without ditch stitching, as planned'
  const why = next
    ? `${reasonFor(best!, next, wanted.turning)} (${asked})`
    : `the plan is for a frame: it is worked strip by strip (${asked})`
  return { choice: strategies.indexOf(best!), why }
}

/** The first figure, in order of weight, in which the better strategy is better. */
function reasonFor(best: StrategyFigures, next: StrategyFigures, turning: number): string {
  const than = `${strategyName(next)}`
  if (best.starts < next.starts)
    return `${best.starts} thread start${best.starts === 1 ? '' : 's'}; ${than} needs ${next.starts}`
  const gains = [
    { gain: ROUTE_WEIGHTS.overlap * (next.overlapMm - best.overlapMm), what: 'less is stitched over' },
    {
      gain: ROUTE_WEIGHTS.reposition * (next.moves - best.moves),
      what: `the quilt is moved ${best.moves} times, not ${next.moves}`,
    },
    {
      gain: ROUTE_WEIGHTS.reposition * turning * (next.turns - best.turns),
      what: 'the quilt is turned less',
    },
    { gain: ROUTE_WEIGHTS.travel * (next.travelMm - best.travelMm), what: 'less travel' },
  ]
  const most = gains.reduce((a, b) => (b.gain > a.gain ? b : a))
  return most.gain > 0
    ? `${most.what} than ${than}`.replace(/, not (\d+) than/, ', not $1 as')
    : `no worse than ${than}`
}

const COLUMNS = ['', 'starts', 'stitched over', 'travel', 'moves', 'turns', 'time', 'thread'] as const

/** The strategies as a table in plain text, with the choice marked and explained. */
export function strategiesText(
  { strategies, choice, why }: { strategies: readonly StrategyFigures[]; choice: number; why: string },
  units: Parameters<typeof lengthText>[1],
): string {
  const rows = strategies.map((s, i) => [
    `${i === choice ? '* ' : '  '}${strategyName(s)}`,
    s.starts === s.startsBound ? `${s.starts}` : `${s.starts} (at least ${s.startsBound})`,
    lengthText(s.overlapMm, units),
    lengthText(s.travelMm, units),
    `${s.moves}`,
    s.turns.toFixed(0),
    durationText(s.minutes),
    longLengthText(s.threadM * 1000, units),
  ])
  const table = [[...COLUMNS], ...rows]
  const widths = COLUMNS.map((_, c) => Math.max(...table.map((row) => row[c]!.length)))
  const lines = table.map((row) =>
    row
      .map((cell, c) => cell.padEnd(widths[c]!))
      .join('  ')
      .trimEnd(),
  )
  return [...lines, '', `Take ${strategyName(strategies[choice]!)}: ${why}.`].join('\n')
}
