import { distance, type Point, subtract, unit } from '../geometry/point.ts'
import type { Rhythm } from '../motif/fit.ts'
import type { Band, Quilt } from '../quilt/quilt.ts'
import { heightAt } from '../quilt/side-height.ts'
import { alongOn, type BandFiller } from './band-filler.ts'
import { type Group, shortestStretch, stretchesFor } from './grouping.ts'
import type { Reach } from './pieces.ts'
import { frameOf, type SideFrame } from './side-frame.ts'

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

/** One side of a band, as far as the cutting of sides needs to know it. */
export interface SurveyedBand {
  /** Of either half of the side. */
  readonly frames: { readonly left: SideFrame; readonly right: SideFrame }
  /** Half lengths of its seams, mm. */
  readonly innerHalf: number
  readonly outerHalf: number
  /** How far the middles of its seams are apart along it, mm. */
  readonly shift: number
  /** How long its inner seam may be to fit the reach, mm. */
  readonly whole: number
  readonly rhythm: Rhythm
}

export interface SurveyedSide {
  /** From the inside out. */
  readonly bands: readonly SurveyedBand[]
}

/** What the cutting of sides needs to know of a quilt's sides, clockwise from the top. */
export function surveySides(
  quilt: Quilt,
  { fillers, reach }: { readonly fillers: readonly (BandFiller | undefined)[]; readonly reach: Reach },
): SurveyedSide[] {
  const widths = quilt.bands.map(meanWidth)
  return quilt.rings[0]!.map((_, side) => {
    const bands = quilt.bands.map((band): SurveyedBand => {
      const place = band.sides[side]!
      const direction = subtract(place.innerB, place.innerA)
      const whole = reachAlong(direction, isRegular(quilt) ? shorterOf(reach) : reach)
      const frames = { left: frameOf(place, 'left'), right: frameOf(place, 'right') }
      const rhythm = rhythmOn(widths[band.index]!, alongOn(fillers[band.index], side))
      return {
        frames,
        innerHalf: frames.right.innerHalf,
        outerHalf: distance(place.outerA, place.outerB) / 2,
        shift: frames.right.outerMiddle,
        whole,
        rhythm,
      }
    })
    return { bands }
  })
}

/** Sides of a polygon are alike to the eye, however they face: repeats that differ from side to side would be seen. */
export const isRegular = (quilt: Quilt): boolean => quilt.rings[0]!.length > 4
const shorterOf = (reach: Reach): number => Math.min(...reach)

/** How long a seam in a direction fits the reach; whatever the direction if that is one number. */
function reachAlong(direction: Point, reach: Reach | number): number {
  if (typeof reach === 'number') return reach
  const [x, y] = unit(direction)
  return Math.min(reach[0] / Math.abs(x), reach[1] / Math.abs(y))
}

const meanWidth = (band: Band): number =>
  band.sides.reduce((sum, side) => sum + (heightAt(side, 'outerA') + heightAt(side, 'outerB')) / 2, 0) /
  band.sides.length

/** The rhythm of what runs along a side; where nothing does, anything fits. */
const rhythmOn = (width: number, filler: ReturnType<typeof alongOn>): Rhythm =>
  filler
    ? {
        ends: filler.motif.ends,
        repeat: filler.motif.repeat(width, filler.values),
        fans: filler.motif.bend === 'fan',
        elastic: filler.motif.elastic ?? false,
      }
    : { ends: 'free', repeat: width }

/** A filler that runs there and back in one stretch takes any length: the quilt need not be moved within it. */
const withinReach = (rhythm: Rhythm, reachAlong: number): Rhythm =>
  rhythm.ends === 'free' ? { ...rhythm, repeat: Math.min(rhythm.repeat, ROOM * reachAlong) } : rhythm

/** The least part of a stretch, and of the reach, that such a filler gets. */
const ROOM = 0.6
const LEAST = 0.35
/** So many repeats of it look well in the shortest stretch. */
const FEWEST = 1.6

/** One side of a group, as far as every way to cut it needs to know it. */
export interface GroupSide {
  /** Half lengths of the seams of the bands that fillers run along, from the inside out, mm. */
  readonly halves: readonly number[]
  readonly rhythms: readonly Rhythm[]
  /** How far the middles of each band's seams are apart, mm. */
  readonly shifts: readonly number[]
  /** Half length of the group's outermost seam, mm. */
  readonly longest: number
  /** How long a seam of it fits the reach, mm. */
  readonly whole: number
  /** The shortest stretch of each band, mm. */
  readonly least: readonly number[]
}

export function groupSide(group: Group, { bands }: SurveyedSide): GroupSide {
  const { first, count, pieced } = group
  const woven = bands.slice(first, first + count)
  const outermost = bands[Math.max(first + count - 1, ...pieced)]!
  const { whole, innerHalf } = bands[first]!
  const rhythms = woven.map(({ rhythm }) => withinReach(rhythm, whole))
  return {
    halves: [innerHalf, ...woven.map(({ outerHalf }) => outerHalf)],
    rhythms,
    shifts: woven.map(({ shift }) => shift),
    longest: outermost.outerHalf,
    whole,
    least: rhythms.map((rhythm, k) =>
      shortestStretch({ rhythm: leastOf(rhythm), shift: Math.abs(woven[k]!.shift) }),
    ),
  }
}

/**
 * How the stretches of a half side lie: all alike, on lines from the quilt's middle; or square to the seams, in areas that
 * fill the reach round the corners and between them. There may be more areas than must be.
 */
export type Manner =
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

/** Cuts a side in a manner; undefined where that leaves no room. */
export function cutSide(side: GroupSide, manner: Manner): SidePlan | undefined {
  const { halves, rhythms, longest, whole } = side
  if (manner.spread === 'evenly') {
    const { part } = manner
    const room = Math.max(ROOM * part * whole, LEAST * whole)
    const roomy = rhythms.map((rhythm, k) => ({
      rhythm: withRoom(rhythm, room),
      length: (halves[k]! + halves[k + 1]!) / 2,
      shift: Math.abs(side.shifts[k]!),
    }))
    return { stretches: stretchesFor(longest, part * whole, roomy), halves, rhythms }
  }
  const places =
    manner.spread === 'square' ? squarePlaces(longest, whole, manner) : radialPlaces(longest, whole, manner)
  const wanted =
    places && (wantedOn(side, places, manner.spread) ?? wantedOn(shortened(side), places, manner.spread))
  return wanted && { stretches: wanted[0]!.length - 1, halves, rhythms, wanted, slack: places.slack }
}

/** Repeats may be shortened by this much before it is seen, where there is no room for whole ones. Common practice, no source. */
const SHORTENED = 1.12

const shortened = (side: GroupSide): GroupSide => ({
  ...side,
  least: side.least.map((length) => length / SHORTENED),
})

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
  { halves, least, longest }: GroupSide,
  { places }: Stations,
  spread: 'square' | 'radial',
): number[][] | undefined {
  const stretches = places.length - 1
  const wanted: number[][] = []
  for (const [seam, half] of halves.entries()) {
    const room = Math.max(least[seam - 1] ?? 0, least[seam] ?? 0)
    if (half < stretches * room) return undefined
    const scale = spread === 'square' ? 1 : half / longest
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

/** The same filler with the shortest stretch in which it can be drawn. */
const leastOf = (rhythm: Rhythm): Rhythm =>
  rhythm.ends === 'free'
    ? { ...rhythm, repeat: rhythm.elastic ? rhythm.repeat / 3 : rhythm.repeat / 1.2 }
    : rhythm

/** The same filler with the least room that it should get. */
const withRoom = (rhythm: Rhythm, reachAlong: number): Rhythm =>
  rhythm.ends === 'free' ? { ...rhythm, repeat: Math.min(FEWEST * rhythm.repeat, ROOM * reachAlong) } : rhythm
