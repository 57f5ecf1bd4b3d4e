import { distance, type Point } from '../../geometry/point.ts'
import { footOnOuter } from '../layout.ts'
import type { Band, Quilt } from '../quilt.ts'
import { heightAt } from '../side-height.ts'
import { sideWords } from '../side-words.ts'
import { type CornerCut, MITRE_SPARE, type StripCut, type StripRules, stripCut } from './border-strips.ts'
import { patchCut } from './patch-cuts.ts'

/** A band round a regular polygon, as it is to be sewn on. */
export interface PolygonJob {
  readonly band: Band
  readonly quilt: Quilt
  /** What the outer edge needs, mm: a seam allowance, or what the binding covers. */
  readonly outerAllowance: number
  /** Position of its first strips in the order of sewing. */
  readonly order: number
}

/**
 * The strips of one band round a polygon. Every strip is cut as long as its longest edge; slanted ends are trimmed when they
 * are sewn, so those are cut longer.
 *
 * @source the spare length for slanted ends: as for mitred strips of rectangles, common practice, no source
 */
export function polygonStrips(job: PolygonJob, rules: StripRules): StripCut[] {
  const { band } = job
  const every = band.sides.map((_, side) => side)
  const strips = (sides: readonly number[], length: number, step: number) => {
    const names = sides.map((side) => sideWords(job.quilt.rings[band.index]!, side))
    const need = { sides: names, width: heightAt(band.sides[0]!, 'outerA'), length, step }
    return sides.length > 0 ? [stripCut(job, need, rules)] : []
  }
  const [first, second] = [0, 1].map((turn) => every.filter((side) => side % 2 === turn)) as [
    number[],
    number[],
  ]
  const spare = 2 * job.outerAllowance + MITRE_SPARE
  switch (band.corners) {
    case 'mitred':
      return strips(every, distance(band.sides[0]!.outerA, band.sides[0]!.outerB) + spare, 0)
    case 'cornerstone': {
      const length = distance(band.sides[0]!.innerA, band.sides[0]!.innerB) + 2 * rules.seam
      return [...strips(first, length, 0), ...strips(second, length, 1)]
    }
    case 'butted-rows':
    case 'butted-columns': {
      const [before, after] = band.corners === 'butted-rows' ? [first, second] : [second, first]
      const lengthOn = (side: number) => longestEdge(job, side) + spare
      return [...strips(before, lengthOn(before[0]!), 0), ...strips(after, lengthOn(after[0]!), 1)]
    }
  }
}

/** The longest edge of a strip between the seams at its two corners. */
function longestEdge({ band, quilt }: PolygonJob, side: number): number {
  const ends = quilt.seams.filter(({ kind, index }) => kind === 'corner' && index === band.index)
  const { innerA, innerB, outerA, outerB } = band.sides[side]!
  const [a, b] = [ends[side]!, ends[(side + 1) % band.sides.length]!].map(({ points }) => points.at(-1)!)
  return Math.max(distance(innerA, innerB), distance(a!, b!), distance(outerA, outerB))
}

/** The kites in the corners of a band with cornerstones; they are sewn to the strips that go on second. */
export function kiteCuts({ band, order }: PolygonJob, rules: StripRules): CornerCut[] {
  if (band.corners !== 'cornerstone') return []
  const [side, before] = [band.sides[0]!, band.sides.at(-1)!]
  const kite: Point[] = [
    side.innerA,
    footOnOuter(side.innerA, before),
    side.outerA,
    footOnOuter(side.innerA, side),
  ]
  const { width, height, kind } = patchCut(kite, rules)
  const { name, fabric } = band
  return [
    {
      band: name,
      fabric,
      width,
      height,
      count: band.sides.length,
      order: order + 1,
      isTemplate: kind === 'template',
    },
  ]
}
