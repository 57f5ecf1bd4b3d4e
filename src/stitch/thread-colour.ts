import { converter, differenceCiede2000 } from 'culori'
import { PlanError } from '../error.ts'
import { assertWithin } from './within-limits.ts'

/** A colour in CIELAB under daylight D65: lightness 0..100, green to red, blue to yellow. */
export interface Lab {
  readonly l: number
  readonly a: number
  readonly b: number
}

const toLab = converter('lab65')
const ciede2000 = differenceCiede2000()

/** The colour that a CSS colour stands for. @throws PlanError `colour/unknown` for text that is none */
export function labOf(css: string): Lab {
  const lab = toLab(css)
  if (!lab) {
    const message = `"${css}" is not a colour; write one such as "#d9c7a0" or "tan"`
    throw new PlanError({ code: 'colour/unknown', message, at: '' })
  }
  return { l: lab.l, a: lab.a, b: lab.b }
}

/**
 * How different two colours look: about 1 is the least that a trained eye sees side by side.
 *
 * @source CIEDE2000: Sharma, Wu and Dalal, Color Research & Application 30 (2005) 21-30
 */
export const colourDifference = (a: Lab, b: Lab): number =>
  ciede2000({ mode: 'lab65', ...a }, { mode: 'lab65', ...b })

/** A fabric of a band, and how much of the band's area it takes. */
export interface FabricShare {
  readonly colour: Lab
  /** Any scale: shares of a band are set against their sum. */
  readonly share: number
}

export interface BandFabrics {
  readonly name: string
  readonly fabrics: readonly FabricShare[]
  /** Area, or length of line, by which the band counts in the whole: any scale. */
  readonly weight: number
}

export interface ThreadColour {
  readonly name: string
  readonly colour: Lab
}

/** How much a thread is seen, from what it is sewn on. */
export type Visibility = 'blends' | 'barely shows' | 'shows softly' | 'shows'

/**
 * The scale from blending to showing, by CIEDE2000 difference. Below 4 a line of thread is found only by its shadow;
 * below 10 it is seen from where one sits and lost across the room; below 20 it reads as a tint of the fabric's own
 * family; from 20 on it reads as another colour.
 *
 * @source the steps are a rule of thumb of the project: common practice, no source
 */
export const VISIBILITY_SCALE: readonly {
  readonly below: number
  readonly visibility: Visibility
  readonly meaning: string
}[] = [
  { below: 4, visibility: 'blends', meaning: 'found only by its shadow' },
  { below: 10, visibility: 'barely shows', meaning: 'seen from where one sits, lost across the room' },
  { below: 20, visibility: 'shows softly', meaning: "reads as a tint of the fabric's own family" },
  { below: Infinity, visibility: 'shows', meaning: 'reads as another colour' },
]

export const visibilityOf = (difference: number): Visibility =>
  VISIBILITY_SCALE.find(({ below }) => difference < below)?.visibility ?? 'shows'

/** A thread against one band. */
export interface BandContrast {
  readonly band: string
  /** Mean difference from the band's fabrics, by their shares. */
  readonly difference: number
  readonly visibility: Visibility
}

/** A thread against the whole quilt. */
export interface ThreadContrast {
  readonly name: string
  /** Mean of the bands' differences, by their weights. */
  readonly difference: number
  readonly visibility: Visibility
  /** The band on which it shows most. */
  readonly strongest: BandContrast
  readonly bands: readonly BandContrast[]
}

/** Threads in order of how well they blend, and of how well they show. */
export interface ThreadRanking {
  readonly blending: readonly ThreadContrast[]
  readonly showing: readonly ThreadContrast[]
}

/**
 * Ranks threads by how much they stand out from the fabrics. Of two that are equal, the first given comes first.
 *
 * @throws PlanError `thread/nothing-to-compare` without threads or bands, or for a band without fabrics;
 * `colour/share` for a share or weight that is not above 0
 */
export function rankThreads(threads: readonly ThreadColour[], bands: readonly BandFabrics[]): ThreadRanking {
  assertComparable(threads, bands)
  const contrasts = threads.map((thread) => contrastOf(thread, bands))
  return {
    blending: [...contrasts].sort((a, b) => a.difference - b.difference),
    showing: [...contrasts].sort((a, b) => b.difference - a.difference),
  }
}

function assertComparable(threads: readonly ThreadColour[], bands: readonly BandFabrics[]): void {
  const bare = bands.find(({ fabrics }) => fabrics.length === 0)
  if (threads.length === 0 || bands.length === 0 || bare) {
    const message = bare ? `band "${bare.name}" has no fabric` : 'there is no thread or no band to compare'
    throw new PlanError({ code: 'thread/nothing-to-compare', message, at: '' })
  }
  const positive = { min: Number.MIN_VALUE, max: 1e12, unit: '(a share)' }
  assertWithin(
    'colour/share',
    bands.flatMap(({ name, weight, fabrics }) => [
      { at: `${name}.weight`, value: weight, ...positive },
      ...fabrics.map(({ share }, i) => ({ at: `${name}.fabrics[${i}]`, value: share, ...positive })),
    ]),
  )
}

function contrastOf({ name, colour }: ThreadColour, bands: readonly BandFabrics[]): ThreadContrast {
  const contrasts = bands.map((band): BandContrast => {
    const difference = weightedMean(
      band.fabrics.map((fabric) => [colourDifference(colour, fabric.colour), fabric.share]),
    )
    return { band: band.name, difference, visibility: visibilityOf(difference) }
  })
  const difference = weightedMean(contrasts.map((contrast, i) => [contrast.difference, bands[i]!.weight]))
  const strongest = contrasts.reduce((most, next) => (next.difference > most.difference ? next : most))
  return { name, difference, visibility: visibilityOf(difference), strongest, bands: contrasts }
}

function weightedMean(values: readonly (readonly [value: number, weight: number])[]): number {
  const total = values.reduce((sum, [, weight]) => sum + weight, 0)
  return values.reduce((sum, [value, weight]) => sum + value * (weight / total), 0)
}
