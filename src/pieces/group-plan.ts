import { distance, subtract, unit } from '../geometry/point.ts'
import { fitHalfSide, type HalfFit, type Rhythm, worstStretch } from '../motif/fit.ts'
import type { Band, Quilt } from '../quilt/quilt.ts'
import { heightAt } from '../quilt/side-height.ts'
import { alongOn, type BandFiller } from './band-filler.ts'
import { type Group, shortestStretch, stretchesFor } from './grouping.ts'
import type { Reach } from './pieces.ts'
import { type BandShape, reckonMoves } from './reckon-moves.ts'
import { frameOf } from './side-frame.ts'

/** Into how many stretches half a side of a group is cut, and what the fit of its fillers needs to know. */
export interface SidePlan {
  readonly stretches: number
  readonly halves: readonly number[]
  readonly rhythms: readonly Rhythm[]
  /** Where each station is wanted, as a share of the half side, if not evenly spread. */
  readonly wanted?: readonly number[]
}

/** A group's sides clockwise from the top, and how often the quilt is moved for it, as far as that can be told now. */
export interface GroupPlan {
  readonly sides: readonly SidePlan[]
  readonly moves: number
  /** The greatest ratio, either way, of a repeat's length to its nominal one. */
  readonly stretch: number
}

/** Repeats may be stretched by this much before it is seen, and by this much before it is ugly. Common practice, no source. */
const UNSEEN = 1.115
const TOLERABLE = 1.25
/** So many times the fewest moves are worth repeats that keep their shape. */
const WORTH_SHAPE = 1.8

interface GroupTask {
  readonly quilt: Quilt
  readonly fillers: readonly (BandFiller | undefined)[]
  readonly reach: Reach
}

/** How the stretches of a half side lie: all alike, or as long as may be from the corner on, so that they fill the reach. */
interface Manner {
  /** The wanted length of a stretch, as a part of the reach. */
  readonly part: number
  readonly spread: 'evenly' | 'from-corner'
}

/** Shorter stretches fill the reach better where bands are deep. Touches lie a little off the place wanted. */
const MANNERS: readonly Manner[] = [
  { part: 1, spread: 'evenly' },
  { part: 0.95, spread: 'from-corner' },
  { part: 0.86, spread: 'from-corner' },
  { part: 2 / 3, spread: 'evenly' },
  { part: 1 / 2, spread: 'evenly' },
  { part: 0.47, spread: 'from-corner' },
  { part: 1 / 3, spread: 'evenly' },
]
/** What is tried later must save this share of the moves. */
const WORTH = 0.04

/** Cuts the sides of a group into stretches so that the quilt is moved as seldom as possible. */
export function planGroup(group: Group, task: GroupTask): GroupPlan {
  const fitted = distinct(MANNERS.map((manner) => cutSides(group, task, manner))).map(fitSides)
  const least = Math.min(...fitted.map((sides) => sides.stretch))
  const plans = fitted
    .filter(({ stretch }) => stretch <= Math.max(TOLERABLE, least))
    .map((sides) => ({ ...sides, moves: movesFor(group, task, sides) }))
  const fewest = Math.min(...plans.map((plan) => plan.moves))
  const shapely = plans.filter(({ stretch }) => stretch <= Math.max(UNSEEN, least))
  const best = fewestMoves(shapely)
  return best.moves <= WORTH_SHAPE * fewest ? best : fewestMoves(plans)
}

/** The plan with the fewest moves; an earlier one unless a later saves enough. */
const fewestMoves = (plans: readonly GroupPlan[]): GroupPlan =>
  plans.reduce((best, plan) => (plan.moves < (1 - WORTH) * best.moves ? plan : best))

const cutSides = (group: Group, task: GroupTask, manner: Manner): SidePlan[] =>
  task.quilt.rings[0]!.map((_, side) => sidePlan(group, task, { side, manner }))

/** Different manners often come to the same stretches. */
const distinct = (cuts: readonly SidePlan[][]): SidePlan[][] =>
  cuts.filter((cut, i) => !cuts.slice(0, i).some((other) => other.every((side, k) => isSame(side, cut[k]!))))

/** Sides of a group that are cut alike; their bands are the same. */
const isSame = (a: SidePlan, b: SidePlan): boolean =>
  a.stretches === b.stretches &&
  a.wanted?.[1] === b.wanted?.[1] &&
  a.halves.every((half, seam) => half === b.halves[seam]) &&
  a.rhythms.every(({ repeat }, band) => repeat === b.rhythms[band]!.repeat)

/** A group's sides with the fit of each. */
interface FittedSides extends Omit<GroupPlan, 'moves'> {
  readonly fits: readonly HalfFit[]
}

function fitSides(sides: readonly SidePlan[]): FittedSides {
  const halfSides = sides.map((plan) => ({ ...plan, bands: plan.rhythms, phase: 1 as const }))
  const fits: HalfFit[] = []
  for (const [side, half] of halfSides.entries()) {
    // Opposite sides are mostly alike.
    const alike = sides.findIndex((other, k) => k < side && isSame(other, sides[side]!))
    fits.push(fits[alike] ?? fitHalfSide(half))
  }
  const stretch = Math.max(...halfSides.map((half, side) => worstStretch(half, fits[side]!)))
  return { sides, fits, stretch }
}

function movesFor(group: Group, { quilt, reach }: GroupTask, { sides, fits }: FittedSides): number {
  const shapes = sides.map((plan, side) => ({
    bands: bandShapes(group, quilt, { plan, side }),
    fit: fits[side]!,
    stretches: plan.stretches,
    phase: 1 as const,
  }))
  return reckonMoves(shapes, reach)
}

function bandShapes(
  { first, count, pieced }: Group,
  quilt: Quilt,
  { plan, side }: { plan: SidePlan; side: number },
): BandShape[] {
  const woven = plan.rhythms.map(({ ends }, inFit) => ({
    band: first + inFit,
    inFit,
    isFree: ends === 'free',
  }))
  const inner = pieced.filter((band) => count === 0 || band < first)
  const outer = pieced.filter((band) => count > 0 && band > first)
  const patched = (band: number) => ({ band, inFit: undefined, isFree: false })
  return [...inner.map(patched), ...woven, ...outer.map(patched)].map(({ band, inFit, isFree }) => {
    const place = quilt.bands[band]!.sides[side]!
    return { frames: { left: frameOf(place, 'left'), right: frameOf(place, 'right') }, inFit, isFree }
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
  const along = unit(subtract(inner.innerB, inner.innerA))
  const whole = Math.min(reach[0] / Math.abs(along[0]), reach[1] / Math.abs(along[1]))
  const reachAlong = manner.part * whole
  const rhythms = bands.map((band) => withinReach(rhythmOn(band, { fillers, side }), whole))
  const roomy = rhythms.map((rhythm, k) => ({
    rhythm: withRoom(rhythm, Math.max(ROOM * reachAlong, LEAST * whole)),
    length: (halves[k]! + halves[k + 1]!) / 2,
    shift: Math.abs(frameOf(bands[k]!.sides[side]!, 'right').outerMiddle),
  }))
  const longest = distance(outermost.outerA, outermost.outerB) / 2
  const wanted = manner.spread === 'from-corner' ? fromCorner(longest, reachAlong, roomy) : undefined
  const stretches = wanted ? wanted.length - 1 : stretchesFor(longest, reachAlong, roomy)
  return { stretches, halves, rhythms, ...(wanted && { wanted }) }
}

/** Stations one reach apart from the corner on, with what is left over at the middle; undefined if that is too short. */
function fromCorner(
  longest: number,
  reachAlong: number,
  bands: readonly { readonly rhythm: Rhythm; readonly shift: number }[],
): number[] | undefined {
  const stretches = Math.ceil(longest / reachAlong - 1e-9)
  const left = longest - (stretches - 1) * reachAlong
  const least = bands.map(shortestStretch)
  if (stretches < 2 || left < Math.max(...least, reachAlong / 4)) return undefined
  return Array.from({ length: stretches + 1 }, (_, station) =>
    station === stretches ? 0 : 1 - (station * reachAlong) / longest,
  )
}

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

/** The same filler with the least room that it should get. */
const withRoom = (rhythm: Rhythm, reachAlong: number): Rhythm =>
  rhythm.ends === 'free' ? { ...rhythm, repeat: Math.min(FEWEST * rhythm.repeat, ROOM * reachAlong) } : rhythm

const meanWidth = (band: Band): number =>
  band.sides.reduce((sum, side) => sum + (heightAt(side, 'outerA') + heightAt(side, 'outerB')) / 2, 0) /
  band.sides.length
