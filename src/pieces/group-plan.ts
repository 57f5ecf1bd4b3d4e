import { distance, type Point, subtract, unit } from '../geometry/point.ts'
import type { Box } from '../geometry/stroke.ts'
import { type HalfFit, type Rhythm, worstStretch } from '../motif/fit.ts'
import { fitStations } from '../motif/settle-stations.ts'
import type { Band, Quilt } from '../quilt/quilt.ts'
import { heightAt } from '../quilt/side-height.ts'
import { alongOn, type BandFiller } from './band-filler.ts'
import { type Group, shortestStretch, stretchesFor } from './grouping.ts'
import type { Reach } from './pieces.ts'
import { type BandShape, reckonMoves, sectorBoxes } from './reckon-moves.ts'
import { frameOf } from './side-frame.ts'

/** Into how many stretches half a side of a group is cut, and what the fit of its fillers needs to know. */
export interface SidePlan {
  readonly stretches: number
  readonly halves: readonly number[]
  readonly rhythms: readonly Rhythm[]
  /** Where each station is wanted on each seam, as a share of its half length, if not evenly spread. */
  readonly wanted?: readonly (readonly number[])[]
  /** How far each may lie off it, mm. */
  readonly slack?: readonly number[]
}

/** A group's sides clockwise from the top, and how often the quilt is moved for it, as far as that can be told now. */
export interface GroupPlan {
  readonly sides: readonly SidePlan[]
  readonly moves: number
  /** The greatest ratio, either way, of a repeat's length to its nominal one. */
  readonly stretch: number
}

/** Repeats may be stretched by this much before it is seen, and by this much before it is ugly. Common practice, no source. */
const UNSEEN = 1.12
const TOLERABLE = 1.25
/** So many times the fewest moves are worth repeats that keep their shape. */
const WORTH_SHAPE = 1.4

interface GroupTask {
  readonly quilt: Quilt
  readonly fillers: readonly (BandFiller | undefined)[]
  readonly reach: Reach
}

/**
 * How the stretches of a half side lie: all alike, on lines from the quilt's middle; or square to the seams, in areas that
 * fill the reach round the corners and between them. There may be more areas than must be.
 */
type Manner =
  | {
      readonly spread: 'evenly' /** The wanted length of a stretch, as a part of the reach. */
      readonly part: number
    }
  | { readonly spread: 'radial'; readonly more: number }
  | {
      readonly spread: 'square'
      readonly more: number
      /** Of what is left over, the part by which areas round a corner fall short of the reach. */
      readonly corner: number
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

/** Cuts the sides of a group into stretches so that the quilt is moved as seldom as possible. */
export function planGroup(group: Group, task: GroupTask): GroupPlan {
  const kinds = waysByKind(group, task)
  const movesFor = movesCounter(kinds, task)
  const shapely = bestWithin(UNSEEN, kinds, movesFor)
  const fewest = bestWithin(TOLERABLE, kinds, movesFor)
  return shapely.moves <= WORTH_SHAPE * fewest.moves ? shapely : fewest
}

/** One way to cut a side. */
interface SideWay {
  readonly plan: SidePlan
  readonly boxes: readonly (readonly Box[])[]
  readonly stretch: number
}

/** Sides that are alike are cut alike: the numbers of the sides, and the ways in which each of them can be cut. */
interface Kind {
  readonly sides: readonly number[]
  /** `ways[manner][i]`: of the i-th of these sides. */
  readonly ways: readonly (readonly SideWay[])[]
}

function waysByKind(group: Group, task: GroupTask): Kind[] {
  const fitOf = fitter()
  return alikeSides(group, task).map((sides) => {
    const known = new Set<string>()
    const ways = MANNERS.flatMap((manner) => {
      const plan = sidePlan(group, task, { side: sides[0]!, manner })
      const key = `${plan.stretches} ${JSON.stringify(plan.wanted)}`
      if (known.has(key)) return []
      known.add(key)
      return [wayFor(plan, { group, task, sides, fitOf })]
    })
    return { sides, ways }
  })
}

/** How a side is fitted, and the worst stretch of that. */
interface FittedSide {
  readonly fit: HalfFit
  readonly stretch: number
}

/** Fits sides; the same plan is fitted once, as those of a square are for all its sides. */
function fitter(): (plan: SidePlan) => FittedSide {
  const known = new Map<string, FittedSide>()
  return (plan) => {
    const key = JSON.stringify(plan)
    const before = known.get(key)
    if (before) return before
    const half = { ...plan, bands: plan.rhythms, phase: 1 as const }
    const fit = fitStations(half)
    const fitted = { fit, stretch: worstStretch(half, fit) }
    known.set(key, fitted)
    return fitted
  }
}

interface WayTask {
  readonly group: Group
  readonly task: GroupTask
  readonly sides: readonly number[]
  fitOf(plan: SidePlan): FittedSide
}

function wayFor(plan: SidePlan, { group, task, sides, fitOf }: WayTask): SideWay[] {
  const { fit, stretch } = fitOf(plan)
  return sides.map((side) => {
    const shape = {
      bands: bandShapes(group, task.quilt, { plan, side }),
      fit,
      stretches: plan.stretches,
      phase: 1 as const,
    }
    let boxes: SideWay['boxes'] | undefined
    return {
      plan,
      stretch,
      // Most ways are never tried.
      get boxes() {
        boxes ??= sectorBoxes(shape, task.reach)
        return boxes
      },
    }
  })
}

/** Opposite sides that are cut alike are counted together. */
function alikeSides(group: Group, task: GroupTask): number[][] {
  const lists = new Map<string, number[]>()
  task.quilt.rings[0]!.forEach((_, side) => {
    const { halves, rhythms } = sidePlan(group, task, { side, manner: MANNERS[0]! })
    const shifts = task.quilt.bands
      .slice(group.first, group.first + group.count)
      .map((band) => frameOf(band.sides[side]!, 'right').outerMiddle)
    const round = (x: number) => Math.round(x * 1000)
    const key = `${isRegular(task.quilt) ? 0 : side % 2} ${halves.map(round)} ${shifts.map(round)} ${JSON.stringify(rhythms)}`
    const list = lists.get(key)
    if (list) list.push(side)
    else lists.set(key, [side])
  })
  return [...lists.values()]
}

/**
 * The plan with the fewest moves whose repeats are stretched no more than so, or as little as can be: side by side the
 * best way, given the others; an earlier way unless a later one saves enough.
 */
function bestWithin(most: number, kinds: readonly Kind[], movesFor: (choice: Choice) => number): GroupPlan {
  const allowed = kinds.map(({ ways }) => {
    const least = Math.min(...ways.map(([way]) => way!.stretch))
    return ways.flatMap(([way], index) => (way!.stretch <= Math.max(most, least) ? [index] : []))
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
  const sides = waysOf(kinds, chosen)
  return {
    sides: sides.map(({ plan }) => plan),
    moves,
    stretch: Math.max(...sides.map(({ stretch }) => stretch)),
  }
}

/** Which way each kind of side is cut. */
type Choice = readonly number[]

/** The way of every side. */
function waysOf(kinds: readonly Kind[], choice: Choice): SideWay[] {
  const sides: SideWay[] = []
  kinds.forEach((kind, k) => {
    kind.sides.forEach((side, i) => {
      sides[side] = kind.ways[choice[k]!]![i]!
    })
  })
  return sides
}

/** Counts the moves of a choice, of each once. */
function movesCounter(kinds: readonly Kind[], { reach }: GroupTask): (choice: Choice) => number {
  const known = new Map<string, number>()
  return (choice) => {
    const key = choice.join()
    const moves =
      known.get(key) ??
      reckonMoves(
        waysOf(kinds, choice).map(({ boxes }) => boxes),
        reach,
      )
    known.set(key, moves)
    return moves
  }
}

/** So often each side's way is chosen again, given the others. */
const ROUNDS = 2

function bandShapes(
  { first, count, pieced }: Group,
  quilt: Quilt,
  { plan, side }: { plan: SidePlan; side: number },
): BandShape[] {
  const woven = plan.rhythms.map(({ ends, fans = false }, inFit) => ({
    band: first + inFit,
    inFit,
    isFree: ends === 'free',
    fans,
  }))
  const inner = pieced.filter((band) => count === 0 || band < first)
  const outer = pieced.filter((band) => count > 0 && band > first)
  const patched = (band: number) => ({ band, inFit: undefined, isFree: false, fans: true })
  return [...inner.map(patched), ...woven, ...outer.map(patched)].map(({ band, ...shape }) => {
    const place = quilt.bands[band]!.sides[side]!
    return { frames: { left: frameOf(place, 'left'), right: frameOf(place, 'right') }, ...shape }
  })
}

function sidePlan(
  group: Group,
  { quilt, fillers, reach }: GroupTask,
  { side, manner }: { side: number; manner: Manner },
): SidePlan {
  const bands = quilt.bands.slice(group.first, group.first + group.count)
  const outermost = quilt.bands[Math.max(group.first + group.count - 1, ...group.pieced)]!.sides[side]!
  const inner = quilt.bands[group.first]!.sides[side]!
  const halves = [
    distance(inner.innerA, inner.innerB) / 2,
    ...bands.map(({ sides }) => distance(sides[side]!.outerA, sides[side]!.outerB) / 2),
  ]
  const whole = reachAlong(subtract(inner.innerB, inner.innerA), isRegular(quilt) ? shorterOf(reach) : reach)
  const rhythms = bands.map((band) => withinReach(rhythmOn(band, { fillers, side }), whole))
  const shifts = bands.map((band) => Math.abs(frameOf(band.sides[side]!, 'right').outerMiddle))
  const longest = distance(outermost.outerA, outermost.outerB) / 2
  if (manner.spread !== 'evenly') {
    const least = rhythms.map((rhythm, k) => shortestStretch({ rhythm: leastOf(rhythm), shift: shifts[k]! }))
    const places =
      manner.spread === 'square' ? squarePlaces(longest, whole, manner) : radialPlaces(longest, whole, manner)
    const wanted =
      places && wantedOn(halves, { ...places, least, longest, isSquare: manner.spread === 'square' })
    if (wanted) return { stretches: wanted[0]!.length - 1, halves, rhythms, wanted, slack: places.slack }
  }
  const part = manner.spread === 'evenly' ? manner.part : 1
  const roomy = rhythms.map((rhythm, k) => ({
    rhythm: withRoom(rhythm, Math.max(ROOM * part * whole, LEAST * whole)),
    length: (halves[k]! + halves[k + 1]!) / 2,
    shift: shifts[k]!,
  }))
  return { stretches: stretchesFor(longest, part * whole, roomy), halves, rhythms }
}

/** Sides of a polygon are alike to the eye, however they face: repeats that differ from side to side would be seen. */
const isRegular = (quilt: Quilt): boolean => quilt.rings[0]!.length > 4
const shorterOf = (reach: Reach): number => Math.min(...reach)

/** How long a seam in a direction fits the reach; whatever the direction if that is one number. */
function reachAlong(direction: Point, reach: Reach | number): number {
  if (typeof reach === 'number') return reach
  const [x, y] = unit(direction)
  return Math.min(reach[0] / Math.abs(x), reach[1] / Math.abs(y))
}

/** Where stations are wanted on a group's outermost seam, from the corner on, and how far each may lie off it, mm. */
interface Stations {
  readonly places: readonly number[]
  readonly slack: readonly number[]
}

/** The first station so far from the corner that one area goes round it; the rest in areas alike, the middle one across the side's middle. */
function squarePlaces(
  longest: number,
  whole: number,
  { more, corner }: { more: number; corner: number },
): Stations | undefined {
  const fewest = Math.max(0, Math.ceil((2 * longest - whole) / (FULL * whole) - 1 - 1e-9))
  const areas = fewest + more
  // What an area falls short of the reach; of that, the corner's area its part.
  const short = ((areas + 2) * whole - 2 * longest) / (areas + 2 * corner)
  const each = whole - short
  if (each <= 0 || short <= 0) return undefined
  const between = Array.from({ length: Math.ceil(areas / 2) }, (_, i) => (areas / 2 - i) * each)
  const slack = between.map((_, i) => (i === 0 ? Math.min(corner * short, short / 2) : short / 2))
  return {
    places: [longest, ...between, 0],
    slack: [0, ...slack.map((s) => Math.max(s, LEAST_SLACK * whole)), 0],
  }
}

/** All alike. */
function radialPlaces(longest: number, whole: number, { more }: { more: number }): Stations {
  const stretches = Math.ceil(longest / (FULL * whole) - 1e-9) + more
  const each = longest / stretches
  const slack = Math.max(LEAST_SLACK * whole, (whole - each) / 2)
  return {
    places: Array.from({ length: stretches + 1 }, (_, station) => longest - station * each),
    slack: Array.from({ length: stretches + 1 }, () => slack),
  }
}

const LEAST_SLACK = 0.02

/**
 * The same on every seam, as shares of its half: square to the seams or on lines from the quilt's middle, but nearer the
 * middle where a seam is too short for that. Undefined where there is no room.
 */
function wantedOn(
  halves: readonly number[],
  {
    places,
    least,
    longest,
    isSquare,
  }: Stations & { readonly least: readonly number[]; readonly longest: number; readonly isSquare: boolean },
): number[][] | undefined {
  const stretches = places.length - 1
  const wanted: number[][] = []
  for (const [seam, half] of halves.entries()) {
    const room = Math.max(least[seam - 1] ?? 0, least[seam] ?? 0)
    if (half < stretches * room) return undefined
    const scale = isSquare ? 1 : half / longest
    const at = places.map((place, station) => Math.min(place * scale, half - station * room))
    for (let station = stretches - 1; station > 0; station--)
      at[station] = Math.max(at[station]!, at[station + 1]! + room)
    if (stretches > 1 && half - at[1]! < 0.99 * room) return undefined
    wanted.push(at.map((place) => Math.min(1, place / half)))
  }
  return wanted
}

/** Areas between corners fill at most this part of the reach, so that touches can be chosen. */
const FULL = 0.95

/** The rhythm of what runs along a side; where nothing does, anything fits. */
function rhythmOn(
  band: Band,
  { fillers, side }: { fillers: readonly (BandFiller | undefined)[]; side: number },
): Rhythm {
  const width = meanWidth(band)
  const filler = alongOn(fillers[band.index], side)
  return filler
    ? {
        ends: filler.motif.ends,
        repeat: filler.motif.repeat(width, filler.values),
        fans: filler.motif.bend === 'fan',
        elastic: filler.motif.elastic ?? false,
      }
    : { ends: 'free', repeat: width }
}

/** A filler that runs there and back in one stretch takes any length: the quilt need not be moved within it. */
const withinReach = (rhythm: Rhythm, reachAlong: number): Rhythm =>
  rhythm.ends === 'free' ? { ...rhythm, repeat: Math.min(rhythm.repeat, ROOM * reachAlong) } : rhythm

/** The least part of a stretch, and of the reach, that such a filler gets. */
const ROOM = 0.6
const LEAST = 0.35
/** So many repeats of it look well in the shortest stretch. */
const FEWEST = 1.6

/** The same filler with the shortest stretch in which it can be drawn. */
const leastOf = (rhythm: Rhythm): Rhythm =>
  rhythm.ends === 'free'
    ? { ...rhythm, repeat: rhythm.elastic ? rhythm.repeat / 3 : rhythm.repeat / 1.2 }
    : rhythm

/** The same filler with the least room that it should get. */
const withRoom = (rhythm: Rhythm, reachAlong: number): Rhythm =>
  rhythm.ends === 'free' ? { ...rhythm, repeat: Math.min(FEWEST * rhythm.repeat, ROOM * reachAlong) } : rhythm

const meanWidth = (band: Band): number =>
  band.sides.reduce((sum, side) => sum + (heightAt(side, 'outerA') + heightAt(side, 'outerB')) / 2, 0) /
  band.sides.length
