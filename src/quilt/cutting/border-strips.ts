import type { LengthUnit } from '../../units.ts'
import type { BandSize, Sides } from '../layout.ts'
import { stripsFor, toMark, upToMark } from './tape.ts'

/** A pair of opposite strips of one band, or one strip where opposite widths differ. */
export interface StripCut {
  readonly band: string
  readonly fabric: string
  /** The sides that it is for, in words: `top`, `upper right`. */
  readonly sides: readonly string[]
  /** Sizes to cut, seam allowances included, mm. */
  readonly width: number
  readonly length: number
  /** Joins in each strip where the fabric is too narrow. */
  readonly joins: number
  /** Strips to cut across the fabric for all of `sides`. */
  readonly acrossFabric: number
  /** Position in the order of sewing, from 1. */
  readonly order: number
}

/** A square or rectangle for a band's corners. */
export interface CornerCut {
  readonly band: string
  readonly fabric: string
  readonly width: number
  readonly height: number
  readonly count: number
  readonly order: number
  /** Cut round a shape that fits into width by height. */
  readonly isTemplate?: boolean
}

/** What a band is cut by. */
export interface StripRules {
  readonly unit: LengthUnit
  /** Seam allowance, mm. */
  readonly seam: number
  /** Usable width of the fabric, mm. */
  readonly fabricWidth: number
}

/** A band as it is to be sewn on: round what, and what its outer edge needs. */
export interface StripJob {
  readonly band: BandSize
  /** Finished size of what it is sewn to, mm. */
  readonly width: number
  readonly height: number
  /** What the outer edge needs, mm: a seam allowance, or what the binding covers. */
  readonly outerAllowance: number
  /** Position of its first strips in the order of sewing. */
  readonly order: number
}

/** Mitred strips are cut longer and trimmed when the mitre is sewn, mm. Common practice, no source. */
export const MITRE_SPARE = 50.8

type Pair = readonly [keyof Sides, keyof Sides]
const ROWS: Pair = ['top', 'bottom']
const COLUMNS: Pair = ['left', 'right']

/**
 * The strips of one band, in the order of sewing.
 *
 * @source cut width = finished + two seam allowances; the strips sewn first are as long as the quilt, those sewn next as
 *   long as the quilt with the first: allpeoplequilt.com, Border and corner blocks; mitred ones at least twice the border's
 *   width longer than the quilt: anniesattic.com, determining border lengths
 */
export function borderStrips(job: StripJob, rules: StripRules): StripCut[] {
  const { band, width, height, outerAllowance } = job
  const { top, right, bottom, left } = band.width
  const inner = 2 * rules.seam
  const strips = (sides: Pair, length: number, step: number) => stripPair(job, rules, { sides, length, step })
  switch (band.corners) {
    case 'butted-rows':
      return [
        ...strips(ROWS, width + inner, 0),
        ...strips(COLUMNS, height + top + bottom + 2 * outerAllowance, 1),
      ]
    case 'butted-columns':
      return [
        ...strips(COLUMNS, height + inner, 0),
        ...strips(ROWS, width + left + right + 2 * outerAllowance, 1),
      ]
    case 'cornerstone':
      return [...strips(COLUMNS, height + inner, 0), ...strips(ROWS, width + inner, 1)]
    case 'mitred':
      return [
        ...strips(ROWS, width + left + right + 2 * outerAllowance + MITRE_SPARE, 0),
        ...strips(COLUMNS, height + top + bottom + 2 * outerAllowance + MITRE_SPARE, 1),
      ]
  }
}

/** What one cut is for: some sides of a band, as wide as it finishes and as long as it is cut, mm. */
export interface StripNeed {
  readonly sides: readonly string[]
  readonly width: number
  readonly length: number
  /** Position among the strips of the band in the order of sewing, from 0. */
  readonly step: number
}

/** Strips of one size for some sides of a band. */
export function stripCut(
  {
    band,
    outerAllowance,
    order,
  }: Pick<StripJob, 'outerAllowance' | 'order'> & {
    readonly band: Pick<BandSize, 'name' | 'fabric'>
  },
  { sides, width, length, step }: StripNeed,
  { unit, seam, fabricWidth }: StripRules,
): StripCut {
  const long = upToMark(length, unit)
  const lost = 2 * seam
  return {
    band: band.name,
    fabric: band.fabric,
    sides,
    width: toMark(width + seam + outerAllowance, unit),
    length: long,
    joins: stripsFor(long, { usable: fabricWidth, lost }) - 1,
    acrossFabric: stripsFor(long * sides.length, { usable: fabricWidth, lost }),
    order: order + step,
  }
}

function stripPair(
  job: StripJob,
  rules: StripRules,
  { sides, length, step }: { sides: Pair; length: number; step: number },
): StripCut[] {
  const { band } = job
  const cut = (list: readonly (keyof Sides)[]): StripCut =>
    stripCut(job, { sides: list, width: band.width[list[0]!], length, step }, rules)
  const isPair = Math.abs(band.width[sides[0]] - band.width[sides[1]]) < 1e-6
  return isPair ? [cut(sides)] : sides.map((side) => cut([side]))
}

/** The corner squares of a band with cornerstones, by size. They are sewn to the strips that go on second. */
export function cornerCuts(
  { band, outerAllowance, order }: StripJob,
  { unit, seam }: StripRules,
): CornerCut[] {
  if (band.corners !== 'cornerstone') return []
  const { top, right, bottom, left } = band.width
  const size = (finished: number) => toMark(finished + seam + outerAllowance, unit)
  const corners = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ] as const
  const cuts = new Map<string, CornerCut>()
  for (const [w, h] of corners) {
    const [width, height] = [size(w), size(h)]
    const key = `${width} ${height}`
    const count = (cuts.get(key)?.count ?? 0) + 1
    cuts.set(key, { band: band.name, fabric: band.fabric, width, height, count, order: order + 1 })
  }
  return [...cuts.values()]
}
