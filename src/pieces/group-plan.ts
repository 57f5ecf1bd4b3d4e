import { distance, subtract, unit } from '../geometry/point.ts'
import { fitHalfSide, type HalfSide, type Rhythm } from '../motif/fit.ts'
import type { Band, Quilt } from '../quilt/quilt.ts'
import { alongOf, type BandFiller } from './band-filler.ts'
import { type Group, stretchesFor } from './grouping.ts'
import type { Reach } from './pieces.ts'
import { type BandShape, reckonMoves } from './reckon-moves.ts'
import { heightAt } from './side-frame.ts'

/** Into how many stretches half a side of a group is cut, and what the fit of its fillers needs to know. */
export interface SidePlan {
  readonly stretches: number
  readonly halves: readonly number[]
  readonly rhythms: readonly Rhythm[]
}

/** A group's sides clockwise from the top, and how often the quilt is moved for it, as far as that can be told now. */
export interface GroupPlan {
  readonly sides: readonly SidePlan[]
  readonly moves: number
}

interface GroupTask {
  readonly quilt: Quilt
  readonly fillers: readonly (BandFiller | undefined)[]
  readonly reach: Reach
}

/** Parts of the reach that are tried as the length of a stretch: shorter ones fill it better where bands are deep. */
const TARGETS = [1, 2 / 3, 1 / 2, 1 / 3]
/** Shorter stretches must save this share of the moves. */
const WORTH = 0.04

/** Cuts the sides of a group into stretches so that the quilt is moved as seldom as possible. */
export function planGroup(group: Group, task: GroupTask): GroupPlan {
  const plans = TARGETS.map((target) => planFor(group, task, target))
  return plans.reduce((best, plan) => (plan.moves < (1 - WORTH) * best.moves ? plan : best))
}

function planFor(group: Group, task: GroupTask, target: number): GroupPlan {
  const { quilt, reach } = task
  const sides = quilt.rings[0]!.map((_, side) => sidePlan(group, task, { side, target }))
  const shapes = sides.map((plan, side) => ({
    bands: bandShapes(group, quilt, { plan, side }),
    fit: fitHalfSide(halfSideOf(plan)),
    stretches: plan.stretches,
    phase: 0 as const,
  }))
  return { sides, moves: reckonMoves(shapes, reach) }
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
  return [...inner.map(patched), ...woven, ...outer.map(patched)].map(({ band, inFit, isFree }) => ({
    side: quilt.bands[band]!.sides[side]!,
    inFit,
    isFree,
  }))
}

const halfSideOf = ({ halves, rhythms, stretches }: SidePlan): HalfSide => ({
  halves,
  bands: rhythms,
  stretches,
  phase: 0,
})

function sidePlan(
  group: Group,
  { quilt, fillers, reach }: GroupTask,
  { side, target }: { side: number; target: number },
): SidePlan {
  const bands = quilt.bands.slice(group.first, group.first + group.count)
  const outermost = quilt.bands[Math.max(group.first + group.count - 1, ...group.pieced)]!.sides[side]!
  const inner = quilt.bands[group.first]!.sides[side]!
  const halves = [
    distance(inner.innerA, inner.innerB) / 2,
    ...bands.map(({ sides }) => distance(sides[side]!.outerA, sides[side]!.outerB) / 2),
  ]
  const along = unit(subtract(inner.innerB, inner.innerA))
  const reachAlong = target * Math.min(reach[0] / Math.abs(along[0]), reach[1] / Math.abs(along[1]))
  const rhythms = bands.map((band) => withinReach(rhythmOf(band, fillers), reachAlong))
  const lengths = rhythms.map((rhythm, k) => ({ rhythm, length: (halves[k]! + halves[k + 1]!) / 2 }))
  const longest = distance(outermost.outerA, outermost.outerB) / 2
  return { stretches: stretchesFor(longest, reachAlong, lengths), halves, rhythms }
}

function rhythmOf(band: Band, fillers: readonly (BandFiller | undefined)[]): Rhythm {
  const { motif, values } = alongOf(fillers[band.index])!
  return { ends: motif.ends, repeat: motif.repeat(meanWidth(band), values) }
}

/** A filler that runs there and back in one stretch takes any length: the quilt need not be moved within it. */
const withinReach = (rhythm: Rhythm, reachAlong: number): Rhythm =>
  rhythm.ends === 'free' ? { ...rhythm, repeat: Math.min(rhythm.repeat, ROOM * reachAlong) } : rhythm

/** The least part of the reach that one repeat of such a filler gets. */
const ROOM = 0.6

const meanWidth = (band: Band): number =>
  band.sides.reduce((sum, side) => sum + (heightAt(side, 'outerA') + heightAt(side, 'outerB')) / 2, 0) /
  band.sides.length
