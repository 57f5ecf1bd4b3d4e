import { PlanError } from '../error.ts'
import { mayMeet, type Outside, partsOutside, splitSegment } from '../geometry/clip-stroke.ts'
import { distance, lerp, type Point } from '../geometry/point.ts'
import { pointAt, segmentLength } from '../geometry/segment.ts'
import { endOf, type Stroke, strokeLength } from '../geometry/stroke.ts'
import { type AvoidedRegion, type EdgeRun, edgeRuns, outsideAll } from '../quilt/avoided-region.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Piece, Pieces } from './pieces.ts'

/** A stretch of an avoided region's edge: the line may run along it as in a ditch, or must. */
export interface RegionEdge {
  /** Index of the region. */
  readonly region: number
  /** One segment. */
  readonly stroke: Stroke
  /** The band and the sector whose stitching is nearest. */
  readonly band: number
  readonly sector: number
  /** Whether it is asked for, as part of the region's outline. */
  readonly isAsked: boolean
}

/** What no stitching may enter, and its edge. */
export interface Avoided {
  readonly outside: Outside
  readonly edges: readonly RegionEdge[]
}

/** The longest stretch of edge, mm: each can belong to another area. */
const STRETCH = 40

/**
 * Cuts the pieces at the edges of regions that no stitching may enter. What lies inside is left out; the edges become
 * seams along which the line goes round, or which it stitches whole if that is asked for.
 *
 * @throws PlanError `avoid/nothing-left` if the regions leave no stitching
 *
 * Post-condition: no piece lies deeper than 0.05 mm in a region.
 */
export function avoidRegions(pieces: Pieces, quilt: Quilt): Pieces {
  const regions = quilt.regions ?? []
  if (regions.length === 0) return pieces
  const outside = outsideAll(regions)
  const cut = pieces.pieces.map((piece) => cutPiece(piece, outside))
  const ends = endsBefore(cut.map((parts) => parts.length))
  const kept = cut.flat()
  if (kept.length === 0 && pieces.pieces.length > 0) throw new PlanError(nothingLeft(regions))
  const runs = edgeRuns(regions, quilt.rings.at(-1)!)
  const nearest = nearestPiece(kept)
  const edges = runs.flatMap(inStretches).map(({ region, from, segment }): RegionEdge => {
    const { band, sector } = nearest(pointAt(from, segment, 0.5))
    const isAsked = regions[region]!.outline === 'whole'
    return { region, stroke: { start: from, segments: [segment] }, band, sector, isAsked }
  })
  return {
    ...pieces,
    pieces: kept,
    stretches: pieces.stretches.map((stretch) => ({
      ...stretch,
      pieces: [ends[stretch.pieces[0]]!, ends[stretch.pieces[1]]!],
    })),
    avoided: { outside, edges: kept.length > 0 ? edges : [] },
  }
}

const nothingLeft = (regions: readonly AvoidedRegion[]) => ({
  code: 'avoid/nothing-left',
  at: regions.length === 1 ? 'avoid[0]' : 'avoid',
  message: `${regions.length === 1 ? `${regions[0]!.name} covers` : 'the regions cover'} all that would be stitched: no line is left`,
  hint: 'make it smaller, or fill a band that it leaves free',
})

function cutPiece(piece: Piece, outside: Outside): readonly Piece[] {
  const { stroke } = piece
  if (!mayMeet(stroke, outside, strokeLength(stroke))) return [piece]
  return partsOutside(stroke, outside).map((part) => ({
    ...piece,
    stroke: part.stroke,
    startRing: part.isCutAtStart ? undefined : piece.startRing,
    endRing: part.isCutAtEnd ? undefined : piece.endRing,
  }))
}

/** How many items there are before each of the lists, and after the last. */
function endsBefore(counts: readonly number[]): number[] {
  const ends = [0]
  for (const count of counts) ends.push(ends.at(-1)! + count)
  return ends
}

/** A run of edge in stretches of about the same length. */
function inStretches({ region, from, segment }: EdgeRun): EdgeRun[] {
  const count = Math.ceil(segmentLength(from, segment) / STRETCH)
  const at = Array.from({ length: count - 1 }, (_, i) => (i + 1) / count)
  return splitSegment(from, segment, at).map((part) => ({ region, ...part }))
}

/** Finds the piece of which an end or the middle between them is nearest to a place. */
function nearestPiece(pieces: readonly Piece[]): (to: Point) => Pick<Piece, 'band' | 'sector'> {
  const places = pieces.flatMap(({ stroke, band, sector }) => {
    const end = endOf(stroke)
    return [stroke.start, end, lerp(stroke.start, end, 0.5)].map((at) => ({ at, band, sector }))
  })
  return (to) =>
    places.reduce((best, place) => (distance(place.at, to) < distance(best.at, to) ? place : best), {
      at: [Infinity, Infinity] as Point,
      band: -1,
      sector: 0,
    })
}
