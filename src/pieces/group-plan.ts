import { type HalfFit, worstStretch } from '../motif/fit.ts'
import { fitStations } from '../motif/settle-stations.ts'
import type { Group } from './grouping.ts'
import type { Reach } from './pieces.ts'
import { type BandShape, reckonMoves, type SideWalk, walkSide } from './reckon-moves.ts'
import {
  cutSide,
  type GroupSide,
  groupSide,
  type Manner,
  type SidePlan,
  type SurveyedSide,
} from './side-plan.ts'

/** A side as it is cut, and the fit of its fillers if the group's innermost seam is not touched at the corner. */
export interface FittedSide {
  readonly plan: SidePlan
  readonly fit: HalfFit
}

/** A group's sides clockwise from the top, and how often the quilt is moved for it, as far as that can be told now. */
export interface GroupPlan {
  readonly sides: readonly FittedSide[]
  readonly moves: number
  /** The greatest ratio, either way, of a repeat's length to its nominal one. */
  readonly stretch: number
}

/** Repeats may be stretched by this much before it is seen, and by this much before it is ugly. Common practice, no source. */
const UNSEEN = 1.12
const TOLERABLE = 1.25
/** So many times the fewest moves are worth repeats that keep their shape. */
const WORTH_SHAPE = 1.2

export interface GroupTask {
  readonly sides: readonly SurveyedSide[]
  /** All sides are to be cut alike if they can be, not opposite ones only. */
  readonly isRegular: boolean
  readonly reach: Reach
}

const MANNERS: readonly Manner[] = [
  { spread: 'evenly', part: 1 },
  ...[0, 1, 2].flatMap((more) => [
    { spread: 'square' as const, more, corner: 0.5 },
    { spread: 'square' as const, more, corner: 0.15 },
  ]),
  ...[0, 1].map((more) => ({ spread: 'radial' as const, more })),
  { spread: 'evenly', part: 2 / 3 },
  { spread: 'evenly', part: 1 / 2 },
  { spread: 'evenly', part: 1 / 3 },
]
/** What is tried later must save this share of the moves. */
const WORTH = 0.04

/** The phase in which groups are planned: the first one is stitched so. */
export const PLANNED_PHASE = 1

/**
 * Cuts the sides of a group into stretches so that the quilt is moved as seldom as possible.
 *
 * @param most  more moves than this are of no use: undefined where the first ways tried leave no hope of fewer
 */
export function planGroup(
  group: Group,
  task: GroupTask,
  most = Number.POSITIVE_INFINITY,
): GroupPlan | undefined {
  const kinds = kindsOf(group, task)
  const movesFor = movesCounter(kinds, task)
  addWays(kinds, MANNERS.slice(0, FIRST), { group, task })
  if (HOPE * bestWithin(TOLERABLE, kinds, movesFor).moves > most) return undefined
  addWays(kinds, MANNERS.slice(FIRST), { group, task })
  const shapely = bestWithin(UNSEEN, kinds, movesFor)
  const fewest = bestWithin(TOLERABLE, kinds, movesFor)
  return shapely.moves <= WORTH_SHAPE * fewest.moves ? shapely : fewest
}

/** So many manners are tried first; all of them together hardly ever leave less than this share of their moves. */
const FIRST = 4
const HOPE = 0.8

/** One way to cut the sides of a kind. */
interface Way extends FittedSide {
  readonly stretch: number
  /** Of each side of the kind. */
  walks(): readonly SideWalk[]
}

/** Sides that are alike are cut alike: the numbers of the sides, and the ways in which they can be cut. */
interface Kind {
  readonly sides: readonly number[]
  readonly facts: GroupSide
  readonly ways: Way[]
}

/** Adds the ways to cut the sides of each kind in some manners, of ways that come to the same the first. */
function addWays(
  kinds: readonly Kind[],
  manners: readonly Manner[],
  { group, task }: { readonly group: Group; readonly task: GroupTask },
): void {
  for (const { sides, facts, ways } of kinds)
    for (const manner of manners) {
      const plan = cutSide(facts, manner)
      if (!plan || ways.some((way) => isSameCut(way.plan, plan))) continue
      ways.push(wayFor(plan, { group, task, sides }))
    }
}

/** Whether two plans of one side cut it at the same places. */
function isSameCut(a: SidePlan, b: SidePlan): boolean {
  if (a.stretches !== b.stretches || !a.wanted !== !b.wanted) return false
  return (a.wanted ?? []).every((seam, k) => seam.every((share, i) => share === b.wanted![k]![i]))
}

interface WayTask {
  readonly group: Group
  readonly task: GroupTask
  readonly sides: readonly number[]
}

function wayFor(plan: SidePlan, { group, task, sides }: WayTask): Way {
  const half = { ...plan, bands: plan.rhythms, phase: PLANNED_PHASE as 0 | 1 }
  const fit = fitStations(half)
  let walks: SideWalk[] | undefined
  return {
    plan,
    fit,
    stretch: worstStretch(half, fit),
    // Most ways are never tried.
    walks: () => {
      walks ??= sides.map((side) => {
        const bands = bandShapes(group, plan, task.sides[side]!)
        return walkSide({ bands, fit, stretches: plan.stretches, phase: half.phase }, task.reach)
      })
      return walks
    },
  }
}

/** Opposite sides that are cut alike are counted together. */
function kindsOf(group: Group, { sides, isRegular }: GroupTask): Kind[] {
  const kinds = new Map<
    string,
    { readonly sides: number[]; readonly facts: GroupSide; readonly ways: Way[] }
  >()
  const round = (x: number) => Math.round(x * 1000)
  sides.forEach((surveyed, side) => {
    const facts = groupSide(group, surveyed)
    const repeats = facts.rhythms.map(({ ends, repeat }) => `${ends} ${repeat}`)
    const key = `${isRegular ? 0 : side % 2} ${facts.halves.map(round)} ${facts.shifts.map(round)} ${repeats}`
    const kind = kinds.get(key)
    if (kind) kind.sides.push(side)
    else kinds.set(key, { sides: [side], facts, ways: [] })
  })
  return [...kinds.values()]
}

/**
 * The plan with the fewest moves whose repeats are stretched no more than so, or as little as can be: side by side the
 * best way, given the others; an earlier way unless a later one saves enough.
 */
function bestWithin(most: number, kinds: readonly Kind[], movesFor: (choice: Choice) => number): GroupPlan {
  const allowed = kinds.map(({ ways }) => {
    const least = Math.min(...ways.map(({ stretch }) => stretch))
    return ways.flatMap(({ stretch }, index) => (stretch <= Math.max(most, least) ? [index] : []))
  })
  const chosen = allowed.map(([first]) => first!)
  let moves = movesFor(chosen)
  for (let round = 0; round < ROUNDS; round++)
    kinds.forEach((_, k) => {
      for (const way of allowed[k]!) {
        const fewer = movesFor(chosen.map((was, i) => (i === k ? way : was)))
        if (fewer >= (1 - WORTH) * moves) continue
        moves = fewer
        chosen[k] = way
      }
    })
  const ways = kinds.map((kind, k) => kind.ways[chosen[k]!]!)
  const sides: FittedSide[] = []
  kinds.forEach((kind, k) => {
    for (const side of kind.sides) sides[side] = ways[k]!
  })
  return { sides, moves, stretch: Math.max(...ways.map(({ stretch }) => stretch)) }
}

/** Which way each kind of side is cut. */
type Choice = readonly number[]

/** Counts the moves of a choice, of each once. */
function movesCounter(kinds: readonly Kind[], { reach }: GroupTask): (choice: Choice) => number {
  const known = new Map<string, number>()
  return (choice) => {
    const key = choice.join()
    const before = known.get(key)
    if (before !== undefined) return before
    const walks: SideWalk[] = []
    kinds.forEach(({ sides, ways }, k) => {
      const way = ways[choice[k]!]!.walks()
      sides.forEach((side, i) => {
        walks[side] = way[i]!
      })
    })
    const moves = reckonMoves(walks, reach)
    known.set(key, moves)
    return moves
  }
}

/** So often each side's way is chosen again, given the others. */
const ROUNDS = 2

function bandShapes({ first, count, pieced }: Group, plan: SidePlan, { bands }: SurveyedSide): BandShape[] {
  const woven = plan.rhythms.map(({ ends, fans = false }, inFit) => ({
    frames: bands[first + inFit]!.frames,
    inFit,
    isFree: ends === 'free',
    fans,
  }))
  const patched = (band: number): BandShape => ({
    frames: bands[band]!.frames,
    inFit: undefined,
    isFree: false,
    fans: true,
  })
  const inner = pieced.filter((band) => count === 0 || band < first)
  const outer = pieced.filter((band) => count > 0 && band > first)
  return [...inner.map(patched), ...woven, ...outer.map(patched)]
}
