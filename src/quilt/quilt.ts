import type { Point } from '../geometry/point.ts'
import type { AvoidedRegion } from './avoided-region.ts'
import type { Patch } from './patch.ts'

/** How the four sides of a band meet. `butted-rows`: top and bottom were sewn first; `butted-columns`: left and right. */
export type Corners = 'mitred' | 'butted-rows' | 'butted-columns' | 'cornerstone'

/**
 * One side of a band as it lies on the quilt. Seen from the quilt's middle with the outside up, `a` is its left end
 * and `b` its right end (clockwise round the quilt on the screen).
 */
export interface Side {
  readonly innerA: Point
  readonly innerB: Point
  readonly outerA: Point
  readonly outerB: Point
}

/** One border as it lies on the quilt: its sides clockwise from the top. */
export interface Band {
  /** Position from the centre outward, from 0. */
  readonly index: number
  readonly name: string
  /** A CSS colour. */
  readonly fabric: string
  readonly corners: Corners
  readonly sides: readonly Side[]
}

/** A stretch of ditch: where two bands, or the strips of one band, meet. Between rings it is closed. */
export interface Seam {
  /**
   * `ring`: closed, between band `index - 1` and band `index`; `corner`: inside band `index`; `patch`: a straight stretch
   * between two neighbouring patch corners inside band `index`.
   */
  readonly kind: 'ring' | 'corner' | 'patch'
  readonly index: number
  readonly points: readonly Point[]
  /** Of a patch seam: the numbers of the patches on its sides. */
  readonly patches?: readonly number[]
}

/** The quilt laid out as geometry: mm, x right, y down, origin at the top left finished corner. */
export interface Quilt {
  readonly widthMm: number
  readonly heightMm: number
  /** The nested outlines from the centre's seam (0) to the stitchable edge (bands.length), corners clockwise from the top left. */
  readonly rings: readonly (readonly Point[])[]
  /** The finished edge of the quilt. */
  readonly edge: readonly Point[]
  readonly centreFabric: string
  readonly bands: readonly Band[]
  readonly seams: readonly Seam[]
  /** The patches of pieced bands and cornerstones. */
  readonly patches?: readonly Patch[]
  /** Regions that no stitching may enter. */
  readonly regions?: readonly AvoidedRegion[]
}

/** The quilt as one cloth without bands: what an all-over is worked on. */
export const wholeCloth = ({ patches: _, ...quilt }: Quilt): Quilt => ({
  ...quilt,
  rings: quilt.rings.slice(-1),
  bands: [],
  seams: [],
})
