import { PlanError } from '../error.ts'
import { distance, lerp, type Point } from '../geometry/point.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Net } from './net.ts'
import type { Pieces } from './pieces.ts'

/** Where a line is wanted to begin or end: a corner of what is quilted (clockwise from the top left), or a band's side. */
export type WantedPlace =
  | { readonly kind: 'anywhere' }
  | { readonly kind: 'corner'; readonly corner: number }
  | { readonly kind: 'side'; readonly band: number; readonly side: number }

export interface PlaceContext {
  readonly quilt: Quilt
  readonly pieces: Pieces
  readonly net: Net
}

/**
 * The vertex of the net that a wanted place means: of all ends of stitching in the band (or, for a corner, in the
 * outermost quilted band) the one nearest the middle of that side of the band's seams, or nearest that corner.
 *
 * @param at  the wish's key in the plan, for problems
 * @returns undefined for anywhere
 * @throws PlanError `route/place` if nothing is stitched in that band, or if the place lies in an avoided region
 */
export function placeVertex(place: WantedPlace, context: PlaceContext, at: string): number | undefined {
  if (place.kind === 'anywhere') return undefined
  const band = place.kind === 'side' ? place.band : bandOfCorner(context)
  const vertices = stitchedVertices(band, context)
  if (band === undefined || vertices.length === 0) {
    const what = band === undefined ? 'this quilt' : `band "${context.quilt.bands[band]!.name}"`
    throw new PlanError({ code: 'route/place', at, message: `nothing is stitched in ${what}` })
  }
  const targets = targetsOf(place, band, context.quilt)
  refuseAvoided(targets, context.pieces, at)
  return nearestVertex(vertices, targets, context.net.positions)
}

/** A start in a region that is kept free of stitching can't be moved elsewhere in silence. */
function refuseAvoided(targets: readonly Point[], { avoided }: Pieces, at: string): void {
  if (!avoided || targets.some((target) => avoided.outside(target) > 0)) return
  const message = 'lies in a region that is kept free of stitching'
  throw new PlanError({
    code: 'route/place',
    at,
    message,
    hint: 'choose another place, or make the region smaller',
  })
}

/** The band that a wanted corner is a corner of: the outermost in which anything is stitched. */
export function bandOfCorner({ quilt, pieces }: Pick<PlaceContext, 'quilt' | 'pieces'>): number | undefined {
  const stitched = new Set([
    ...pieces.pieces.map((piece) => piece.band),
    ...pieces.ditched.map(({ patch }) => quilt.patches![patch]!.band),
  ])
  return stitched.size > 0 ? Math.max(...stitched) : undefined
}

/** The ends of a band's pieces, and of its seams that are stitched in the ditch, ascending. */
function stitchedVertices(band: number | undefined, { pieces, net }: PlaceContext): number[] {
  const fills = net.fills.filter((_, i) => pieces.pieces[i]!.band === band)
  const ditches = net.seams.filter(
    ({ ditch, ring, patch }) =>
      ditch !== undefined && (patch === band || ring === band || (ring !== undefined && ring - 1 === band)),
  )
  return [...new Set([...fills, ...ditches].flatMap(({ u, v }) => [u, v]))].sort((a, b) => a - b)
}

function targetsOf(
  place: Exclude<WantedPlace, { kind: 'anywhere' }>,
  band: number,
  quilt: Quilt,
): readonly Point[] {
  if (place.kind === 'corner') return [quilt.rings[band + 1]![place.corner]!]
  const { innerA, innerB, outerA, outerB } = quilt.bands[band]!.sides[place.side]!
  return [lerp(innerA, innerB, 0.5), lerp(outerA, outerB, 0.5)]
}

function nearestVertex(
  vertices: readonly number[],
  targets: readonly Point[],
  positions: readonly Point[],
): number {
  const away = (vertex: number) => Math.min(...targets.map((target) => distance(positions[vertex]!, target)))
  return vertices.reduce((best, vertex) => (away(vertex) < away(best) - 1e-9 ? vertex : best))
}
