import { invariant } from '../error.ts'
import { distance, type Point, subtract } from '../geometry/point.ts'
import { strokeOntoQuad } from '../geometry/quad.ts'
import type { Stroke } from '../geometry/stroke.ts'
import type { CentreFiller } from '../motif/centre-contract.ts'
import type { ValuesOf } from '../motif/contract.ts'
import type { Quilt } from '../quilt/quilt.ts'
import type { Pieces } from './pieces.ts'

/** A filler for the centre with its values. */
export interface CentreFill {
  readonly filler: CentreFiller
  readonly values: ValuesOf<CentreFiller['params']>
}

/**
 * Adds the centre's filler to the pieces: strokes that start and end on the centre's seam, an area of their own, the
 * innermost. In a centre with four corners it is one stroke; its ports lie on the shorter side, so that the way between them
 * is short.
 *
 * Precondition: the filler fills a centre with more corners, if it has more.
 */
export function withCentre(
  pieces: Pieces,
  quilt: Quilt,
  { fill, seed }: { fill: CentreFill; seed: number },
): Pieces {
  const strokes = centreStrokes(quilt.rings[0]!, fill, seed)
  const shifted = <T extends { readonly sector: number }>(list: readonly T[]): T[] =>
    list.map((item) => ({ ...item, sector: item.sector + 1 }))
  return {
    ...pieces,
    groups: [{ first: 0, count: 0, pieced: [] }, ...pieces.groups],
    sectors: [
      { group: 0, side: 0 },
      ...pieces.sectors.map((sector) => ({ ...sector, group: sector.group + 1 })),
    ],
    pieces: [
      ...shifted(pieces.pieces),
      ...strokes.map((stroke) => ({ band: -1, sector: 0, stroke, startRing: 0, endRing: 0 })),
    ],
    ditched: shifted(pieces.ditched),
  }
}

function centreStrokes(ring: readonly Point[], fill: CentreFill, seed: number): readonly Stroke[] {
  const { fillOutline } = fill.filler
  if (ring.length === 4 && !(fillOutline && isOnPoint(ring))) return [centreStroke(ring, fill, seed)]
  const strokes = fillOutline?.({ outline: ring, seed }, fill.values)
  invariant(strokes, `${fill.filler.title} fills a centre with ${ring.length} corners`)
  return strokes
}

/** Whether the first side of an outline is slanted by about half a right angle. */
function isOnPoint([a, b]: readonly Point[]): boolean {
  const [x, y] = subtract(b!, a!)
  return Math.min(Math.abs(x), Math.abs(y)) > Math.max(Math.abs(x), Math.abs(y)) / 2
}

function centreStroke(ring: readonly Point[], { filler, values }: CentreFill, seed: number): Stroke {
  const upright = distance(ring[0]!, ring[1]!) <= distance(ring[1]!, ring[2]!)
  // The ports lie on the side from the first corner to the second.
  const corners = upright ? ring : [...ring.slice(1), ring[0]!]
  const [a, b, c, d] = corners as readonly [Point, Point, Point, Point]
  const width = (distance(a, b) + distance(d, c)) / 2
  const height = (distance(a, d) + distance(b, c)) / 2
  const { stroke } = filler.fill({ width, height, seed }, values)
  return strokeOntoQuad(stroke, { quad: [a, b, c, d], width, height })
}
