import { distance, meanOf, type Point } from '../geometry/point.ts'
import type { Segment } from '../geometry/segment.ts'
import { endOf, type Stroke, transformStroke } from '../geometry/stroke.ts'
import { warpStroke } from '../geometry/warp.ts'
import type { Edge } from '../motif/contract.ts'
import { type DrawnRun, drawStretch, type Filler, type Run } from '../motif/draw-stretch.ts'
import { edgeAt, type HalfFit } from '../motif/fit.ts'
import { fitStations } from '../motif/settle-stations.ts'
import type { Band, Quilt } from '../quilt/quilt.ts'
import { heightAt } from '../quilt/side-height.ts'
import type { Avoided } from './avoid-regions.ts'
import { alongOf, alongOn, type BandFiller, isByPatch, isByStrip, patchFillersOf } from './band-filler.ts'
import { type FittedSide, type GroupPlan, PLANNED_PHASE, planGroup } from './group-plan.ts'
import { type BandExtent, type Group, groupBands } from './grouping.ts'
import { leastMoves } from './least-moves.ts'
import { fillOf, type PatchStrokes, patchStrokes } from './patch-pieces.ts'
import { shareRound } from './share-round.ts'
import { frameOf, type SideFrame } from './side-frame.ts'
import { isRegular, type SidePlan, surveySides } from './side-plan.ts'
import { cornerShares, snapStations } from './snap-stations.ts'
import { runToStripEnd, stripEndOf, type WholeRun } from './strip-end.ts'

/** A filler's line from one touch to the next: what the route must cover. */
export interface Piece {
  readonly band: number
  /** Which area-sized part of which group it lies in: an index into `Pieces.sectors`. */
  readonly sector: number
  readonly stroke: Stroke
  /** The seams (rings) on which it starts and ends; undefined for a corner of a patch, wherever that lies. */
  readonly startRing: number | undefined
  readonly endRing: number | undefined
}

/** A patch whose seams are stitched in the ditch. */
export interface DitchedPatch {
  readonly patch: number
  readonly sector: number
}

/** One stretch of a group's ring between two stations, in order round the quilt. */
export interface Sector {
  readonly group: number
  /** Index of the side, clockwise from the top. */
  readonly side: number
}

/** One band's filler between two stations of one half of a side: its pieces run from the side's middle outward. */
export interface Stretch {
  readonly band: number
  readonly side: number
  readonly half: 'left' | 'right'
  /** Counted from the corner: 0 ends at it. */
  readonly station: number
  readonly atMiddle: boolean
  /** The lines on which it begins and ends: distances from the side's middle along its inner and its outer seam, mm. */
  readonly from: StationLine
  readonly to: StationLine
  /** Its first piece and the one after its last, as indices into `Pieces.pieces`. */
  readonly pieces: readonly [first: number, end: number]
}

interface StationLine {
  readonly inner: number
  readonly outer: number
}

/** How a filler came out in one band. */
export interface BandFit {
  readonly band: number
  /** Repeats on each side, clockwise from the top. */
  readonly repeats: readonly number[]
  /** Least and greatest length of a repeat over the nominal length. */
  readonly stretch: { readonly min: number; readonly max: number }
}

export interface Pieces {
  readonly groups: readonly Group[]
  /** Of each group in turn, clockwise from the top left corner. */
  readonly sectors: readonly Sector[]
  readonly pieces: readonly Piece[]
  readonly stretches: readonly Stretch[]
  readonly ditched: readonly DitchedPatch[]
  readonly fits: readonly BandFit[]
  /** What no stitching may enter, if anything. */
  readonly avoided?: Avoided
  /** The band of setting triangles: corners inside it lie at the middles of sides outside it. */
  readonly setting?: number
}

/** A touch this little beyond the corner still lies on the seam, mm. */
const ON_SEAM = 1e-3

/** Width and height of the rectangle that is stitched without moving the quilt, mm. */
export type Reach = readonly [width: number, height: number]

/**
 * Fits a filler into every band, or into its patches, and cuts it at its touches.
 *
 * @param quilt    laid out
 * @param fillers  one for each band, from the inside out; undefined leaves the band unquilted
 * @param work     how it is stitched
 * @param work.seed     changes what is irregular
 * @param work.threads  colours by band: neighbours in different threads are not woven together
 */
export function cutPieces(
  quilt: Quilt,
  fillers: readonly (BandFiller | undefined)[],
  { reach, seed, threads = [] }: { reach: Reach; seed: number; threads?: readonly (string | undefined)[] },
): Pieces {
  const setting = settingBand(quilt)
  const strokes = patchStrokes(quilt, fillers)
  const extents = quilt.bands.map((band, k) => {
    const round = isByPatch(fillers[k])
      ? shareRound(strokesOf(strokes, quilt, k), meanOf(quilt.rings[0]!))
      : 0
    return { ...extentOf(band, fillers[k]), round, thread: threads[k] }
  })
  const task = { sides: surveySides(quilt, { fillers, reach }), isRegular: isRegular(quilt), reach }
  const plans = new Map<string, GroupPlan>()
  const keyOf = ({ first, count, pieced }: Group): string => `${first} ${count} ${pieced}`
  const groups = groupBands(extents, {
    of: (group, most) => {
      const plan = planGroup(group, task, most)
      if (plan) plans.set(keyOf(group), plan)
      return plan?.moves
    },
    atLeast: leastMoves(quilt, reach),
  })
  const workshop = new Workshop({ quilt, fillers, strokes }, seed)
  let phase: 0 | 1 = PLANNED_PHASE
  groups.forEach((group, g) => {
    const { sides } = plans.get(keyOf(group))!
    const stretches = sides[0]!.plan.stretches
    phase = g === 0 ? PLANNED_PHASE : phaseAfter(groups[g - 1]!, group, { phase, stretches })
    sides.forEach((fitted, side) => workshop.fillSide(fitted, { group, index: g, side, phase }))
  })
  const { sectors, pieces, stretches, ditched } = workshop
  const fits = workshop.fits()
  return { groups, sectors, pieces, stretches, ditched, fits, ...(setting !== undefined && { setting }) }
}

/** The band of setting triangles, if there is one. */
const settingBand = ({ patches = [] }: Quilt): number | undefined =>
  patches.find((patch) => patch.alongOuter !== undefined)?.band

/** All strokes in the patches of a band. */
const strokesOf = (strokes: PatchStrokes, { patches = [] }: Quilt, band: number): readonly Stroke[] =>
  patches.flatMap((patch, number) => (patch.band === band ? (strokes[number] ?? []) : []))

function extentOf(band: Band, filler: BandFiller | undefined): Omit<BandExtent, 'round'> {
  const depth = Math.max(...band.sides.flatMap((s) => [heightAt(s, 'outerA'), heightAt(s, 'outerB')]))
  const perimeter = band.sides.reduce((sum, side) => sum + distance(side.outerA, side.outerB), 0)
  const along = alongOf(filler)
  return { rhythm: along && rhythmOf(along, depth), pieced: isByPatch(filler), depth, perimeter }
}

const rhythmOf = (filler: Filler, width: number) => ({
  ends: filler.motif.ends,
  repeat: filler.motif.repeat(width, filler.values),
})

/** The next group touches the common seam at the corner if the group before it does, and between if not. */
function phaseAfter(before: Group, after: Group, was: { phase: 0 | 1; stretches: number }): 0 | 1 {
  const isNeighbour = before.first + before.count === after.first
  if (!isNeighbour || (before.count + was.phase) % 2 === 0) return 0
  return 1
}

/** Draws strokes side by side, keeping those it has drawn before: opposite sides and mirror halves are the same. */
class Workshop {
  readonly pieces: Piece[] = []
  readonly stretches: Stretch[] = []
  readonly sectors: Sector[] = []
  readonly ditched: DitchedPatch[] = []
  readonly #drawn = new Map<string, DrawnRun>()
  readonly #repeats: number[][]
  readonly #stretch: { min: number; max: number }[]

  readonly quilt: Quilt
  readonly fillers: readonly (BandFiller | undefined)[]
  readonly #patchStrokes: PatchStrokes

  constructor(
    {
      quilt,
      fillers,
      strokes,
    }: { quilt: Quilt; fillers: readonly (BandFiller | undefined)[]; strokes: PatchStrokes },
    readonly seed: number,
  ) {
    this.quilt = quilt
    this.fillers = fillers
    this.#patchStrokes = strokes
    this.#repeats = quilt.bands.map((band) => band.sides.map(() => 0))
    this.#stretch = quilt.bands.map(() => ({ min: Number.POSITIVE_INFINITY, max: 0 }))
  }

  fits(): BandFit[] {
    return this.quilt.bands
      .filter((band) => alongOf(this.fillers[band.index]))
      .map(({ index }) => ({ band: index, repeats: this.#repeats[index]!, stretch: this.#stretch[index]! }))
  }

  /** Fills one side of a group, from its left corner through its middle to its right corner. */
  fillSide(
    { plan, fit: planned }: FittedSide,
    place: { group: Group; index: number; side: number; phase: 0 | 1 },
  ): void {
    const { phase } = place
    const fit = this.#snapped(
      phase === PLANNED_PHASE ? planned : fitStations({ ...plan, bands: plan.rhythms, phase }),
      place,
    )
    const stations = Array.from({ length: plan.stretches }, (_, station) => station)
    const first = this.sectors.length
    for (const station of stations) this.#fillSector({ ...place, plan, fit, station, half: 'left' })
    for (const station of stations.reverse())
      this.#fillSector({ ...place, plan, fit, station, half: 'right' })
    const { group } = place
    const woven = Array.from({ length: group.count }, (_, k) => group.first + k)
    for (const band of [...woven, ...group.pieced])
      this.#fillPatches(band, {
        side: place.side,
        first,
        shares: stationShares(fit, plan.stretches),
        isInside: band < group.first,
      })
  }

  /** Lets the touches beside pieced bands fall on patch corners. */
  #snapped(fit: HalfFit, { group, side }: { group: Group; side: number }): HalfFit {
    const last = group.first + group.count
    const beside = [
      { band: group.first - 1, ring: group.first, seam: 0 },
      { band: last, ring: last, seam: group.count },
    ]
    return beside.reduce((snapped, { band, ring, seam }) => {
      const fillers = this.fillers[band]
      if (group.count === 0 || !isByPatch(fillers)) return snapped
      const isFilled = (name: string) => fillers.patches[name] !== undefined
      return snapStations(snapped, seam, cornerShares(this.quilt, { band, side, ring }, isFilled))
    }, fit)
  }

  #fillSector(at: SectorPlace): void {
    const sector = this.sectors.push({ group: at.index, side: at.side }) - 1
    for (let k = 0; k < at.group.count; k++) this.#fillStretch(at, { k, sector })
  }

  /** Fills the patches of one side; each belongs to the sector beside which its middle lies. */
  #fillPatches(band: number, { side, first, shares, isInside }: SidePatches): void {
    const fillers = patchFillersOf(this.fillers[band])
    if (!fillers) return
    for (const [number, patch] of (this.quilt.patches ?? []).entries()) {
      if (patch.band !== band || patch.side !== side) continue
      const fill = fillOf(patch, fillers)
      if (!fill) continue
      const along = isInside ? (patch.alongOuter ?? patch.along) : patch.along
      const sector = first + sectorAlong(along, shares)
      for (const stroke of this.#patchStrokes[number]!)
        this.pieces.push({ band, sector, stroke, startRing: undefined, endRing: undefined })
      if (fill.filler.ditch) this.ditched.push({ patch: number, sector })
    }
  }

  #fillStretch(at: SectorPlace, { k, sector }: { k: number; sector: number }): void {
    const band = at.group.first + k
    const filler = alongOn(this.fillers[band], at.side)
    if (!filler) return
    const side = this.quilt.bands[band]!.sides[at.side]!
    const frame = frameOf(side, at.half)
    const whole = this.#wholeRun(at, { k, frame })
    const stripEnd = isByStrip(this.fillers[band])
      ? stripEndOf(this.quilt.bands[band]!, { side: at.side, half: at.half })
      : undefined
    const rhythm = at.plan.rhythms[k]!
    const run = stripEnd
      ? runToStripEnd({ station: at.station, whole, end: stripEnd, rhythm })
      : whole(at.station, at.station + 1)
    if (!run) return
    const drawn = this.#draw(filler, run, band)
    this.#note(band, at.side, {
      repeats: run.halfRepeats / 2,
      stretch: rhythm.elastic ? 1 : drawn.repeatMm / rhythm.repeat,
    })
    const first = this.pieces.length
    // A strip that runs over its neighbour's end leaves the inner seam there.
    const ring = (edge: Edge, [u]: Point) =>
      edge === 'outer' ? band + 1 : u <= frame.innerHalf + ON_SEAM ? band : undefined
    for (const { stroke, from, to } of cutAtTouches(drawn)) {
      const placed = transformStroke(frame.lean ? warpStroke(stroke, frame.lean).stroke : stroke, frame.place)
      const [startRing, endRing] = [ring(from, stroke.start), ring(to, endOf(stroke))]
      this.pieces.push({ band, sector, stroke: placed, startRing, endRing })
    }
    this.stretches.push({
      band,
      side: at.side,
      half: at.half,
      station: at.station,
      atMiddle: run.atMiddle,
      from: run.stretch.start,
      to: run.stretch.end,
      pieces: [first, this.pieces.length],
    })
  }

  /** The run of a band from one station of a half side to another, as on a mitre. */
  #wholeRun(at: SectorPlace, { k, frame }: { k: number; frame: SideFrame }): WholeRun {
    const share = (seam: number, station: number) => at.fit.at[seam]![station]
    const line = (station: number) => {
      const s = share(k, station) ?? share(k + 1, station)!
      return { inner: s * frame.innerHalf, outer: frame.outerMiddle + s * frame.outerHalf }
    }
    const edge = (station: number): Edge => edgeAt(k, station, at.phase)
    return (to, from) => ({
      stretch: { width: frame.width, start: line(from), end: line(to) },
      from: edge(from),
      to: edge(to),
      halfRepeats: at.fit.halfRepeats[k]!.slice(to, from).reduce((sum, count) => sum + count, 0),
      atMiddle: from === at.plan.stretches,
      atCorner: to === 0,
      seed: this.seed + at.group.first + k,
    })
  }

  #draw(filler: Filler, run: Run, band: number): DrawnRun {
    const key = `${band} ${filler.name} ${JSON.stringify(filler.values)} ${JSON.stringify(run, (_, v) => (typeof v === 'number' ? Math.round(v * 1e6) : v))}`
    const known = this.#drawn.get(key)
    if (known) return known
    const drawn = drawStretch(filler, run)
    this.#drawn.set(key, drawn)
    return drawn
  }

  #note(band: number, side: number, { repeats, stretch }: { repeats: number; stretch: number }): void {
    this.#repeats[band]![side]! += repeats
    const range = this.#stretch[band]!
    range.min = Math.min(range.min, stretch)
    range.max = Math.max(range.max, stretch)
  }
}

/** Where the patches of one side go: among which sectors, and whether their band lies inside the group's. */
interface SidePatches {
  readonly side: number
  readonly first: number
  readonly shares: readonly number[]
  readonly isInside: boolean
}

interface SectorPlace {
  readonly group: Group
  readonly index: number
  readonly side: number
  readonly phase: 0 | 1
  readonly plan: SidePlan
  readonly fit: HalfFit
  readonly station: number
  readonly half: 'left' | 'right'
}

/** For each station, from the corner, its place as a share of the half side: the mean over the seams touched there. */
function stationShares({ at }: HalfFit, stretches: number): number[] {
  return Array.from({ length: stretches + 1 }, (_, station) => {
    const shares = at.flatMap((seam) => seam[station] ?? [])
    const sum = shares.reduce((total, share) => total + share, 0)
    return shares.length > 0 ? sum / shares.length : 1 - station / stretches
  })
}

/** Which of a side's sectors, from its left corner, a place lies in: -1 is the left corner, 0 the middle, 1 the right. */
function sectorAlong(along: number, shares: readonly number[]): number {
  const stretches = shares.length - 1
  let station = 0
  while (station + 1 < stretches && Math.abs(along) < shares[station + 1]!) station++
  return along < 0 ? station : 2 * stretches - 1 - station
}

function cutAtTouches({ stroke, touches }: DrawnRun): { stroke: Stroke; from: Edge; to: Edge }[] {
  const cut: { stroke: Stroke; from: Edge; to: Edge }[] = []
  let start = stroke.start
  for (let i = 1; i < touches.length; i++) {
    const [from, to] = [touches[i - 1]!, touches[i]!]
    const segments: readonly Segment[] = stroke.segments.slice(from.after, to.after)
    if (segments.length === 0) continue
    const part = { start, segments }
    cut.push({ stroke: part, from: from.edge, to: to.edge })
    start = endOf(part)
  }
  return cut
}
